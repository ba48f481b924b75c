import { ALIGNMENT_SETTINGS, type AlignmentName, type AlignmentSettings } from './alignment-names.ts';
import { infieldSeen, isOvershift, startOffset } from './alignment-sides.ts';
import { bearingDegOf } from './bearing.ts';
import { BASE_SPOTS } from './field.ts';
import { MOVABLE_INFIELD, ON_FIRST, SIDES } from './play-codes.ts';

/** What the shape was against; codes as in a table of plays. */
export interface AlignmentContext {
  /** Outs before the play, 0 to 2. */
  readonly outs: number;
  /** Bits ON_FIRST, ON_SECOND, ON_THIRD. */
  readonly bases: number;
  /** Code of SIDES. */
  readonly batterSide: number;
}

const LEFT_HANDED = SIDES.indexOf('L');

/**
 * Names the shape of the infield from the four infielders' starts, never from a tag; null when not all were seen.
 * Men are told apart by place, not by position number: the outer two are the corners, the inner two the middle.
 * @param starts six (x, y) pairs a play for positions 1 to 6, feet; `at` is the play's index.
 */
export function nameAlignment(
  starts: Float64Array,
  at: number,
  context: AlignmentContext,
  settings: AlignmentSettings = ALIGNMENT_SETTINGS,
): AlignmentName | null {
  if (!infieldSeen(starts, at)) return null;
  if (isOvershift(starts, at)) return 'overshift';
  const [thirdCorner, leftMiddle, rightMiddle, firstCorner] = leftToRight(starts, at);
  const leftDepthFt = Math.hypot(starts[leftMiddle], starts[leftMiddle + 1]);
  const rightDepthFt = Math.hypot(starts[rightMiddle], starts[rightMiddle + 1]);
  if (Math.max(leftDepthFt, rightDepthFt) <= settings.middleInFt) return 'infield in';

  // Both: a first baseman alone holds a runner, a third baseman alone waits for one batter's bunt.
  const deeperCornerFt = Math.max(
    Math.hypot(starts[thirdCorner], starts[thirdCorner + 1]),
    Math.hypot(starts[firstCorner], starts[firstCorner + 1]),
  );
  if (deeperCornerFt <= settings.cornerInFt) return 'corners in';

  const forceAtSecond = (context.bases & ON_FIRST) !== 0 && context.outs < 2;
  if (forceAtSecond && (leftDepthFt + rightDepthFt) / 2 <= settings.doublePlayDepthFt) {
    const fromSecondFt = (fromBaseFt(starts, leftMiddle, 2) + fromBaseFt(starts, rightMiddle, 2)) / 2;
    if (fromSecondFt <= settings.doublePlayFromSecondFt) return 'double-play depth';
  }
  // A man who holds the runner stands by his line too.
  const fromLineFt = Math.max(
    (starts[thirdCorner + 1] + starts[thirdCorner]) / Math.SQRT2,
    (starts[firstCorner + 1] - starts[firstCorner]) / Math.SQRT2,
  );
  if (fromLineFt <= settings.guardLineFt) return 'guarding the lines';

  const leanDeg = (bearingAt(starts, leftMiddle) + bearingAt(starts, rightMiddle)) / 2;
  const usualDeg = context.batterSide === LEFT_HANDED ? settings.straightUpPullDeg : -settings.straightUpPullDeg;
  if (leanDeg - usualDeg <= -settings.shadeDeg) return 'shaded left';
  if (leanDeg - usualDeg >= settings.shadeDeg) return 'shaded right';
  return 'straight-up';
}

const order = new Int32Array(MOVABLE_INFIELD.length);

/** Offsets of the four infielders by bearing, the third-base side first. The array is overwritten by the next call. */
function leftToRight(starts: Float64Array, at: number): Int32Array {
  for (let n = 0; n < order.length; n += 1) {
    const offset = startOffset(at, MOVABLE_INFIELD[n]!);
    const bearing = bearingAt(starts, offset);
    let k = n;
    for (; k > 0 && bearingAt(starts, order[k - 1]) > bearing; k -= 1) order[k] = order[k - 1];
    order[k] = offset;
  }
  return order;
}

function bearingAt(starts: Float64Array, offset: number): number {
  return bearingDegOf(starts[offset], starts[offset + 1]);
}

function fromBaseFt(starts: Float64Array, offset: number, base: number): number {
  return Math.hypot(starts[offset] - BASE_SPOTS[base]!.x, starts[offset + 1] - BASE_SPOTS[base]!.y);
}
