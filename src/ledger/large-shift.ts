/** A logit shift above this means that a model is off (method.md 7). */
const LARGE_SHIFT = 0.05;

/**
 * Whether a group of plays had to be shifted by more than a right model would need: beyond 0.05, and beyond two standard
 * errors, since a handful of plays balances at any shift. `information` is the sum of p(1 - p) over the group's marks.
 */
export function isLargeShift(shift: number, information: number): boolean {
  return Math.abs(shift) > LARGE_SHIFT && Math.abs(shift) > 2 / Math.sqrt(information);
}
