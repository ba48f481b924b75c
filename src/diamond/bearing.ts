const DEGREES_PER_RADIAN = 180 / Math.PI;

/** Bearing of a spot in degrees: 0 over second base, +45 the first-base line, -45 the third-base line (data-contract.md). */
export function bearingDegOf(xFt: number, yFt: number): number {
  return Math.atan2(xFt, yFt) * DEGREES_PER_RADIAN;
}

export function radians(degrees: number): number {
  return degrees / DEGREES_PER_RADIAN;
}
