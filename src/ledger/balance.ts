import { GRADES, WHOLE } from '../chances/grades.ts';
import type { Grounders } from '../chances/grounders.ts';
import { findIncreasingRoot } from '../numeric/find-root.ts';
import { shiftByOdds } from '../numeric/logistic.ts';
import type { RawMarks } from './raw-marks.ts';

/** Logit shifts with which a group of plays balances (method.md 7); 0 where a grade has no such mark. */
export interface Shifts {
  readonly opening: number;
  readonly set: number;
  readonly gathered: number;
}

/** One season and grade of plays and its shifts. */
export interface BalanceGroup extends Shifts {
  readonly season: number;
  readonly grade: number;
  readonly plays: number;
}

/**
 * Shifts stop here. A group in which every play was an out (or none) has no finite shift: at this one its marks are within
 * 1e-12 of the result, so that nothing is learnt from it and nobody is paid.
 */
const LARGEST_SHIFT = 30;

/** Shifts of every season and grade, and for each play the number of its group. */
export interface Balance {
  readonly groups: readonly BalanceGroup[];
  readonly groupOf: Int32Array;
}

/** Finds the shifts with which opening, set and gathered each add up to the outs that were made, by season and grade. */
export function balanceMarks(grounders: Grounders, raw: RawMarks): Balance {
  const members = new Map<string, number[]>();
  for (let at = 0; at < grounders.count; at += 1) {
    const key = `${grounders.season[at]} ${raw.grade[at]}`;
    const list = members.get(key);
    if (list === undefined) members.set(key, [at]);
    else list.push(at);
  }
  const groupOf = new Int32Array(grounders.count);
  const groups = [...members.values()].map((plays, group) => {
    for (const at of plays) groupOf[at] = group;
    const closed = plays.reduce((sum, at) => sum + grounders.closed[at], 0);
    const rootOf = (total: (odds: number) => number) =>
      findIncreasingRoot((shift) => total(Math.exp(shift)) - closed, -LARGEST_SHIFT, LARGEST_SHIFT);
    const grade = raw.grade[plays[0]];
    return {
      season: grounders.season[plays[0]],
      grade,
      plays: plays.length,
      opening: rootOf((odds) => plays.reduce((sum, at) => sum + shiftedOpening(raw, at, odds), 0)),
      set:
        GRADES[grade] === 'full'
          ? rootOf((odds) => plays.reduce((sum, at) => sum + shiftByOdds(raw.set[at], odds), 0))
          : 0,
      gathered:
        grade === WHOLE ? 0 : rootOf((odds) => plays.reduce((sum, at) => sum + shiftByOdds(raw.gathered[at], odds), 0)),
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
