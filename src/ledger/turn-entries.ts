import type { Grounders } from '../chances/grounders.ts';
import { type TurnModel, turnChances } from '../chances/turn-model.ts';
import { selectTurnPlays } from '../chances/turn-plays.ts';
import { findIncreasingRoot } from '../numeric/find-root.ts';
import { shiftByOdds } from '../numeric/logistic.ts';
import { LARGEST_SHIFT } from './balance.ts';
import type { ClassLedger } from './class-ledger.ts';
import { TURN } from './entry-kinds.ts';

/** The turns of one season: how many were possible and made, and the logit shifts with which they add up to zero. */
export interface TurnBalance {
  readonly season: number;
  readonly plays: number;
  /** Of these, the plays with a pivot. */
  readonly fedPlays: number;
  readonly made: number;
  /** Of the chance once the ball was in hand, over all plays. */
  readonly gathered: number;
  /** Of the chance once it was thrown, over the plays with a pivot. */
  readonly thrown: number;
  /** Sums of the entries, zero but for rounding. */
  readonly totalOuts: number;
  readonly totalRuns: number;
}

/**
 * Of what happens after the throw, this part is the pivot's. The feed and the turn are each one release and one throw
 * against the same clock, and nothing recorded tells them apart.
 */
const PIVOT_SHARE = 0.5;

/**
 * Adds the turn entries (method.md 6 and 7, docs/decisions/021-turn.md) to a ledger of grounders. Where a second out was
 * possible the entries of a play add up to second out made (0 or 1) minus its chance P given the gather. With T its chance
 * once the ball was thrown to somebody who could turn it, the pivot gets half of made - T, the starter T - P and the other
 * half; without a pivot all is the starter's. Chances are shifted by season so that the entries of the starters and those of
 * the pivots each add up to zero. `stakeRuns`: runs of a second out, by grounder.
 */
export function addTurns(
  ledger: Pick<ClassLedger, 'entries'>,
  grounders: Grounders,
  model: TurnModel,
  stakeRuns: Float64Array,
): TurnBalance[] {
  const plays = selectTurnPlays(grounders);
  const chances = turnChances(model, grounders, plays);
  const bySeason = new Map<number, number[]>();
  plays.at.forEach((at, k) => {
    const season = grounders.season[at];
    const members = bySeason.get(season);
    if (members === undefined) bySeason.set(season, [k]);
    else members.push(k);
  });
  return [...bySeason].map(([season, members]) => {
    const fed = members.filter((k) => plays.pivot[k] > 0);
    const gathered = shiftThatBalances(members, chances.gathered, plays.made);
    const thrown = shiftThatBalances(fed, chances.thrown, plays.made);
    const [gatheredOdds, thrownOdds] = [Math.exp(gathered), Math.exp(thrown)];
    let [made, totalOuts, totalRuns] = [0, 0, 0];
    for (const k of members) {
      const at = plays.at[k];
      const whole = plays.made[k] - shiftByOdds(chances.gathered[k], gatheredOdds);
      const turned =
        plays.pivot[k] > 0 ? PIVOT_SHARE * (plays.made[k] - shiftByOdds(chances.thrown[k], thrownOdds)) : 0;
      ledger.entries.add(at, plays.starter[k], TURN, whole - turned, stakeRuns[at]);
      ledger.entries.add(at, plays.pivot[k], TURN, turned, stakeRuns[at]);
      made += plays.made[k];
      totalOuts += whole;
      totalRuns += whole * stakeRuns[at];
    }
    return { season, plays: members.length, fedPlays: fed.length, made, gathered, thrown, totalOuts, totalRuns };
  });
}

/** The logit shift with which the chances of these plays add up to the second outs made. */
function shiftThatBalances(members: readonly number[], chance: Float64Array, made: Uint8Array): number {
  const excess = (shift: number) => {
    const odds = Math.exp(shift);
    return members.reduce((sum, k) => sum + shiftByOdds(chance[k], odds) - made[k], 0);
  };
  return excess(0) === 0 ? 0 : findIncreasingRoot(excess, -LARGEST_SHIFT, LARGEST_SHIFT);
}
