import { bearingDegOf } from '../../src/diamond/bearing.ts';

/** `139 ft from home, bearing −14`. */
export function spotWords(xFt: number, yFt: number): string {
  const bearing = Math.round(bearingDegOf(xFt, yFt));
  return `${Math.hypot(xFt, yFt).toFixed(0)} ft from home, bearing ${bearing < 0 ? '−' : ''}${Math.abs(bearing)}`;
}
