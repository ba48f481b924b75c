import { INFIELD, MOVABLE_INFIELD } from './play-codes.ts';

/** Where x of a position's start lies in `starts`, six (x, y) pairs a play for positions 1 to 6; y follows it. */
export function startOffset(at: number, position: number): number {
  return 2 * (at * INFIELD.length + position - 1);
}

/** Whether the starts of all four infielders (positions 3 to 6) were seen. */
export function infieldSeen(starts: Float64Array, at: number): boolean {
  for (const position of MOVABLE_INFIELD) {
    const x = startOffset(at, position);
    if (!Number.isFinite(starts[x]) || !Number.isFinite(starts[x + 1])) return false;
  }
  return true;
}

/**
 * How many of the four infielders stand on the first-base side of second base, 0 to 4; null when not all were seen. The
 * sides are parted by the line from home through second base; a man exactly on it is on neither.
 * @param starts six (x, y) pairs a play, feet; `at` is the play's index.
 */
export function rightSideInfielders(starts: Float64Array, at: number): number | null {
  return infieldSeen(starts, at) ? countBySign(starts, at, 1) : null;
}

/** Whether three or more of the four infielders stand on one side of second base; null when not all were seen. */
export function isOvershift(starts: Float64Array, at: number): boolean | null {
  if (!infieldSeen(starts, at)) return null;
  return countBySign(starts, at, 1) >= 3 || countBySign(starts, at, -1) >= 3;
}

function countBySign(starts: Float64Array, at: number, sign: 1 | -1): number {
  let count = 0;
  for (const position of MOVABLE_INFIELD) if (sign * starts[startOffset(at, position)] > 0) count += 1;
  return count;
}
