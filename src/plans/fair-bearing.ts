/** Bearings of fair balls lie between minus and plus this, degrees. */
export const FAIR_DEG = 45;

/** A bearing that would be foul, thrown back across the line it went over. */
export function fairBearingDeg(bearingDeg: number): number {
  let bearing = bearingDeg;
  while (Math.abs(bearing) > FAIR_DEG) bearing = Math.sign(bearing) * 2 * FAIR_DEG - bearing;
  return bearing;
}
