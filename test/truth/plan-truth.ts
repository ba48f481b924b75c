import type { Person } from '../../src/league/scenario/person.ts';
import type { LeagueTruth } from '../../src/league/truth/league-truth.ts';
import type { Plan, PlanQuestion } from '../../src/plans/plan-types.ts';
import type { PlanGrounds } from '../../src/plans/prepare-plans.ts';
import { solvePlan } from '../../src/plans/solve-plan.ts';
import type { SpotLimits } from '../../src/plans/spot-limits.ts';
import { BestStarts, type SearchStage } from './best-starts.ts';
import { trueOuts } from './true-batters.ts';

/** Runs of an out in mode `flat`, in hundreds of balls. */
const RUNS_PER_100 = 75;

/** One plan beside what the simulator says of it. Gains in runs per 100 balls against the even spots, with standard errors. */
export interface TruePlan {
  readonly plan: Plan;
  /** Nine (x, y) pairs each. */
  readonly even: Float64Array;
  readonly starts: Float64Array;
  readonly gain: number;
  readonly error: number;
  /** The same of the best starts that brute force found; NaN when it was not asked. */
  readonly best: number;
  readonly bestError: number;
}

export interface TrueSearch {
  readonly coarse: SearchStage;
  readonly fine: SearchStage;
  /** Also where nobody of a position was seen. */
  readonly anywhere?: boolean;
}

/** What the simulator says of one plan: the same again for the same batter, starts and numbers of balls. */
export type Measured = Pick<TruePlan, 'gain' | 'error' | 'best' | 'bestError'>;

/** Gives back what was measured before under a key, else measures. */
export type Recall = (key: string, measure: () => Measured) => Measured;

/** Plans against one batter with nobody on and nobody out, and judges the plan on `balls` balls that he truly hits. */
export function judgeByTruth(
  grounds: PlanGrounds,
  truth: LeagueTruth,
  batter: Person,
  more: Partial<PlanQuestion>,
  balls: number,
  search: TrueSearch | null,
  recall: Recall = (_, measure) => measure(),
): TruePlan {
  const { plan, even, starts } = planAgainst(grounds, batter, more);
  const side = plan.side === 'L' ? 0 : 1;
  const measure = () => {
    const placements = [even, starts];
    if (search !== null) {
      const limits: SpotLimits = {
        rule: plan.rule,
        depth: 'usual',
        hold: false,
        seen: (position) => (search.anywhere ? null : grounds.usual.seen(position, side)),
        batterToFirstS: batter.homeToFirstS,
      };
      const most = Math.max(search.coarse.balls, search.fine.balls);
      const brute = new BestStarts(truth, batter, limits, most, 4099 + batter.index);
      placements.push(brute.search([even, starts], search.coarse, search.fine));
    }
    const { share, error } = trueOuts(truth, batter, placements, balls, 7919 + batter.index);
    const runs = (p: number) => RUNS_PER_100 * (share[p]! - share[0]!);
    return {
      gain: runs(1),
      error: RUNS_PER_100 * error[1]!,
      best: search === null ? Number.NaN : runs(2),
      bestError: search === null ? Number.NaN : RUNS_PER_100 * error[2]!,
    };
  };
  const placed = [...even, ...starts].map((feet) => feet.toFixed(2));
  return { plan, even, starts, ...recall(JSON.stringify([batter.id, plan.rule, balls, search, placed]), measure) };
}

/** A plan with nobody on and nobody out, and its nine (x, y) pairs beside the even ones. */
export function planAgainst(grounds: PlanGrounds, batter: Person, more: Partial<PlanQuestion>) {
  const plan = solvePlan(grounds, {
    batter: batter.id,
    defence: grounds.data.table.teams[0]!,
    outs: 0,
    bases: 0,
    rule: 'two-a-side',
    ...more,
  });
  const even = grounds.usual.even(plan.side === 'L' ? 0 : 1, 0);
  const starts = even.slice();
  for (const { position, start_x_ft, start_y_ft } of plan.starts) {
    starts[2 * position - 2] = start_x_ft;
    starts[2 * position - 1] = start_y_ft;
  }
  return { plan, even, starts };
}

/** The grounds as they would be if only the first few of everybody's balls had been seen. */
export function withFewBalls(grounds: PlanGrounds, most: number): PlanGrounds {
  const ofBatter = new Map([...grounds.ofBatter].map(([person, numbers]) => [person, numbers.slice(0, most)]));
  return { ...grounds, ofBatter };
}

/** Mean distance over the infielders between two placements, feet. */
export function meanMoveFt(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (const p of [3, 4, 5, 6]) sum += Math.hypot(a[2 * p - 2]! - b[2 * p - 2]!, a[2 * p - 1]! - b[2 * p - 1]!);
  return sum / 4;
}
