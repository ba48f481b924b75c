/**
 * A ball's way through the air seen from the side (method.md 1, 2): a parabola through bat height at contact and the ground
 * at the end of its hang time, even speed along its line. Drag bends the true way; the surfaces fitted on top take that up.
 */

/** Height at which bat meets ball, feet. */
const BAT_HEIGHT_FT = 3;
/** Half of 32.174 ft/s^2. */
const HALF_GRAVITY = 16.087;
/** A man who jumps has his glove about this high, feet. */
export const GLOVE_HEIGHT_FT = 9;

/** Height in feet `timeS` seconds after contact of a ball that hangs `hangS` seconds. */
export function heightFt(timeS: number, hangS: number): number {
  return BAT_HEIGHT_FT * (1 - timeS / hangS) + HALF_GRAVITY * timeS * (hangS - timeS);
}

/** Seconds after contact from which the ball stays below a height of 3 ft or more; 0 when it never is above it. */
export function staysBelowFromS(limitFt: number, hangS: number): number {
  const linear = HALF_GRAVITY * hangS - BAT_HEIGHT_FT / hangS;
  const rest = linear * linear - 4 * HALF_GRAVITY * (limitFt - BAT_HEIGHT_FT);
  if (rest <= 0) return 0;
  return Math.max(0, (linear + Math.sqrt(rest)) / (2 * HALF_GRAVITY));
}

/** Latest that a ball caught at `caughtS` within a glove's height could have come down, seconds after contact. */
export function latestLandingS(caughtS: number): number {
  return caughtS + GLOVE_HEIGHT_FT / (HALF_GRAVITY * caughtS);
}
