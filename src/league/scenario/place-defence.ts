import { ON_FIRST, ON_SECOND, ON_THIRD } from '../../diamond/play-codes.ts';
import type { Random } from '../../numeric/random.ts';
import { ownSprayDeg, pullSign } from './batter-habit.ts';
import type { Person } from './person.ts';
import type { PlacementHabit } from './placement-habit.ts';
import { keepTwoASide, shadeToTheLimit } from './two-a-side.ts';
import { allocateDepths, type Depths, overshift, straightUp, toStarts } from './usual-starts.ts';

const MOST_SHADE_DEG = 7;
const WELL_SHARE = 0.38;
/** Nobody plays on the line, and the first baseman stays within reach of his bag. */
const MOST_CORNER_DEG = 39;
const FIRST_BASE_SHARE = 0.6;
const BAD_SPREAD_DEG = 5.5;
const BAD_SHARE = -0.45;
const PULLS_ENOUGH_DEG = 2.5;
/** Share of pitches before which the club's habit is kept; else straight-up. */
const HABIT_KEPT = 0.88;
const JITTER_FT = 3.2;
const OUTFIELD_JITTER_FT = 7;
const HOLD_DEG = 42;
const HOLD_FT = 95;
const DOUBLE_DEPTH_FT = 11;
const DOUBLE_DEPTH_DEG = 2.5;
const INFIELD_IN_FT = 38;
const CORNERS_IN_FT = 26;
const GUARD_DEG = 3.5;

const depths: Depths = allocateDepths();

/** What the defence knows before a pitch. */
export interface PitchState {
  readonly outs: number;
  readonly bases: number;
  readonly inning: number;
  readonly buntLikely: boolean;
  /** Whether the season is played under the two-a-side rule. */
  readonly twoASide: boolean;
}

/** Writes the nine starts of one pitch: the club's habit, the batter, the bases, then a few feet of chance. */
export function placeDefence(
  habit: PlacementHabit,
  batter: Person,
  state: PitchState,
  random: Random,
  starts: Float64Array,
): void {
  const { batsLeft } = batter;
  straightUp(batsLeft, depths);
  const shifted = random.next() < HABIT_KEPT ? applyHabit(habit, batter, state.twoASide) : false;
  if (!shifted) forBases(state, random.next(), depths);
  else if (state.bases & ON_FIRST) for (let p = 3; p <= 6; p += 1) depths.depthFt[p]! -= p === 3 ? 0 : 6;
  if (state.inning >= 8 && random.next() < 0.2 && !shifted) {
    depths.bearingDeg[3] = Math.max(depths.bearingDeg[3]!, 35 + GUARD_DEG);
    depths.bearingDeg[5]! -= GUARD_DEG;
  }
  for (let p = 7; p <= 9; p += 1) depths.depthFt[p]! += 1.6 * (batter.habit.powerMph - 94);
  for (let p = 3; p <= 9; p += 1) {
    depths.bearingDeg[p]! += habit.leanDeg[p]!;
    depths.depthFt[p]! += habit.leanFt[p]!;
  }
  toStarts(depths, starts);
  if (state.twoASide) keepTwoASide(starts, false);
  for (let k = 4; k < 18; k += 1) starts[k]! += (k < 12 ? JITTER_FT : OUTFIELD_JITTER_FT) * random.normal();
  if (state.twoASide) keepTwoASide(starts, true);
}

/** Shades or shifts by the club's habit; true when the whole infield went over, three to a side or as far as a rule lets it. */
function applyHabit(habit: PlacementHabit, batter: Person, twoASide: boolean): boolean {
  const { batsLeft } = batter;
  const spray = ownSprayDeg(batter.habit, batsLeft);
  switch (habit.name) {
    case 'straight-up':
      return false;
    case 'shading well':
      shade(WELL_SHARE * spray);
      return false;
    case 'shading badly':
      shade(BAD_SHARE * spray + BAD_SPREAD_DEG * habit.belief.fork(batter.id).normal());
      return false;
    case 'overshifting': {
      if (spray * pullSign(batsLeft) > (batsLeft ? PULLS_ENOUGH_DEG - 3 : PULLS_ENOUGH_DEG)) {
        (twoASide ? shadeToTheLimit : overshift)(batsLeft, depths);
        return true;
      }
      shade(0.4 * spray);
      return false;
    }
  }
}

function shade(degrees: number): void {
  const turn = Math.max(-MOST_SHADE_DEG, Math.min(MOST_SHADE_DEG, degrees));
  for (let p = 4; p <= 9; p += 1) depths.bearingDeg[p]! += p < 7 ? turn : 0.5 * turn;
  depths.bearingDeg[3] = Math.min(MOST_CORNER_DEG, depths.bearingDeg[3]! + FIRST_BASE_SHARE * turn);
  depths.bearingDeg[5] = Math.max(-MOST_CORNER_DEG, depths.bearingDeg[5]!);
}

/** Holding the runner, double-play depth, infield in, corners in. */
function forBases(state: PitchState, u: number, out: Depths): void {
  const { bases, outs } = state;
  const onFirst = (bases & ON_FIRST) !== 0;
  if (onFirst && (bases & ON_SECOND) === 0) {
    out.bearingDeg[3] = HOLD_DEG;
    out.depthFt[3] = HOLD_FT;
  }
  if (onFirst && outs < 2) {
    for (const p of [4, 6]) {
      out.depthFt[p]! -= DOUBLE_DEPTH_FT;
      out.bearingDeg[p]! -= Math.sign(out.bearingDeg[p]!) * DOUBLE_DEPTH_DEG;
    }
  }
  if ((bases & ON_THIRD) !== 0 && outs < 2 && u < (state.inning >= 7 ? 0.6 : 0.25)) {
    for (let p = 3; p <= 6; p += 1) out.depthFt[p]! -= p === 4 || p === 6 ? INFIELD_IN_FT : INFIELD_IN_FT / 2;
  } else if (state.buntLikely) {
    out.depthFt[5]! -= CORNERS_IN_FT;
    if (!onFirst) out.depthFt[3]! -= CORNERS_IN_FT;
  }
}
