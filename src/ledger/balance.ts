import type { ClassPlays } from '../chances/class-plays.ts';
import { GRADES, WHOLE } from '../chances/grades.ts';
import { findIncreasingRoot } from '../numeric/find-root.ts';
import { shiftByOdds } from '../numeric/logistic.ts';
import type { RawMarks } from './raw-marks.ts';

/** One number a mark; 0 where a grade has no such mark. */
interface ByMark {
  readonly opening: number;
  readonly set: number;
  readonly gathered: number;
}

/** Logit shifts with which a group of plays balances (method.md 7). */
export type Shifts = ByMark;

/** The plays of one season, ball kind and grade, and their shifts. */
export interface BalanceGroup extends Shifts {
  readonly season: number;
  /** Code of BALL_KINDS. */
  readonly kind: number;
  readonly grade: number;
  readonly plays: number;
  /** Outs that each mark lacked before it was shifted; negative where it promised too many. */
  readonly short: ByMark;
}

/**
 * Shifts stop here. A group in which every play was an out (or none) has no finite shift: at this one its marks are within
 * 1e-12 of the result, so that nothing is learnt from it and nobody is paid.
 */
export const LARGEST_SHIFT = 45;

const BALANCED = { shift: 0, short: 0 };

/** Shifts of every season, ball kind and grade, and for each play the number of its group. */
export interface Balance {
  readonly groups: readonly BalanceGroup[];
  readonly groupOf: Int32Array;
}

/** Finds the shifts with which opening, set and gathered each add up to the outs that were made, by season, ball kind and grade. */
export function balanceMarks(plays: ClassPlays, raw: RawMarks): Balance {
  const members = new Map<string, number[]>();
  for (let at = 0; at < plays.count; at += 1) {
    const key = `${plays.season[at]} ${plays.table.ballKind[plays.row[at]]} ${raw.grade[at]}`;
    const list = members.get(key);
    if (list === undefined) members.set(key, [at]);
    else list.push(at);
  }
  const groupOf = new Int32Array(plays.count);
  const groups = [...members.values()].map((group, number) => {
    for (const at of group) groupOf[at] = number;
    const closed = group.reduce((sum, at) => sum + plays.closed[at], 0);
    const balance = (mark: (at: number, odds: number) => number) => {
      const excess = (shift: number) => group.reduce((sum, at) => sum + mark(at, Math.exp(shift)), 0) - closed;
      const unshifted = excess(0);
      // Marks of 0 and 1 balance as they are, or not at all.
      if (unshifted === 0) return BALANCED;
      return { shift: findIncreasingRoot(excess, -LARGEST_SHIFT, LARGEST_SHIFT), short: -unshifted };
    };
    const grade = raw.grade[group[0]];
    const opening = balance((at, odds) => shiftedOpening(raw, at, odds));
    const set = GRADES[grade] === 'full' ? balance((at, odds) => shiftByOdds(raw.set[at], odds)) : BALANCED;
    const gathered = grade === WHOLE ? BALANCED : balance((at, odds) => shiftByOdds(raw.gathered[at], odds));
    return {
      season: plays.season[group[0]],
      kind: plays.table.ballKind[plays.row[group[0]]],
      grade,
      plays: group.length,
      opening: opening.shift,
      set: set.shift,
      gathered: gathered.shift,
      short: { opening: opening.short, set: set.short, gathered: gathered.short },
    };
  });
  return { groups, groupOf };
}

/** Opening mark of a play: the shift is applied to each draw, inside the mean. */
export function shiftedOpening(raw: RawMarks, at: number, odds: number): number {
  let sum = 0;
  const end = (at + 1) * raw.draws;
  for (let k = at * raw.draws; k < end; k += 1) sum += shiftByOdds(raw.openingByDraw[k], odds);
  return sum / raw.draws;
}
