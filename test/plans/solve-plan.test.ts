import { beforeAll, describe, expect, it } from 'vitest';
import { legalTwoASide } from '../../src/diamond/playing-rules.ts';
import type { Plan, PlanQuestion } from '../../src/plans/plan-types.ts';
import { solvePlan } from '../../src/plans/solve-plan.ts';
import { battersSeen, type PlannedLeague, plannedLeague } from './plan-grounds.ts';

let planned: PlannedLeague;
let question: PlanQuestion;

beforeAll(() => {
  planned = plannedLeague(1, 4, 5, 9000);
  question = {
    batter: battersSeen(planned.grounds, 100)[0]!,
    defence: 'Quillmouth',
    outs: 0,
    bases: 0,
    rule: 'two-a-side',
  };
}, 120_000);

const solve = (more: Partial<PlanQuestion> = {}) => solvePlan(planned.grounds, { ...question, ...more });

/** Six (x, y) pairs, pitcher and catcher anywhere. */
function sixStarts(plan: Plan): Float64Array {
  const starts = new Float64Array(12);
  for (const { position, start_x_ft, start_y_ft } of plan.starts) {
    if (position > 6) continue;
    starts[2 * position - 2] = start_x_ft;
    starts[2 * position - 1] = start_y_ft;
  }
  return starts;
}

describe('a plan', () => {
  it('is the same for the same question', () => {
    expect(solve()).toEqual(solve());
  });

  it('gains against even spots and own starts on balls that it was not made with, and says within what range', () => {
    const { gain_runs_per_100: gain, runs_per_100: runs, outs_per_100: outs } = solve();
    expect(gain.value).toBeCloseTo(runs.even - runs.plan, 9);
    expect(gain.value).toBeGreaterThan(0);
    expect(runs.plan).toBeLessThan(runs.own);
    expect(runs.even - runs.plan).toBeCloseTo(0.75 * (outs.plan - outs.even), 9);
    expect(gain.lo80).toBeLessThan(gain.value);
    expect(gain.hi80).toBeGreaterThan(gain.value);
  });

  it('obeys the two-a-side rule in every situation, as an independent judge sees it', () => {
    for (const batter of battersSeen(planned.grounds, 60).slice(0, 6)) {
      for (const [outs, bases] of [
        [0, 0],
        [1, 1],
        [2, 7],
        [0, 4],
      ] as const) {
        const verdict = legalTwoASide(sixStarts(solve({ batter, outs, bases })), 0);
        expect(verdict.legal, verdict.reason).toBe(true);
      }
    }
  });

  it('is no worse without the rule than with it', () => {
    const [bound, free] = [solve(), solve({ rule: 'open' })];
    expect(free.runs_per_100.plan).toBeLessThan(bound.runs_per_100.plan + 0.1);
  });

  it('puts the first baseman at the bag when he holds the runner, and lets him off it when he does not', () => {
    const away = (plan: Plan) => {
      const { start_x_ft: x, start_y_ft: y } = plan.starts[0]!;
      return Math.hypot(x - 90 / Math.SQRT2, y - 90 / Math.SQRT2);
    };
    expect(away(solve({ bases: 1 }))).toBeLessThan(8.1);
    expect(away(solve({ bases: 1, hold: false }))).toBeGreaterThan(8.1);
  });

  it('says so when nothing was seen of a batter, and is then the plan of his side', () => {
    const pitcher = planned.league.plays.people.find((_, person) => !planned.grounds.ofBatter.has(person))!;
    const plan = solve({ batter: pitcher, side: 'R' });
    expect(plan.balls).toBe(0);
    expect(plan.warnings.join()).toContain('No ball of this batter');
  });

  it('refuses clubs and people that the book does not know', () => {
    expect(() => solve({ defence: 'Nowhere' })).toThrow('knows no club');
    expect(() => solve({ batter: 'nobody' })).toThrow('knows no batter');
    expect(() => solve({ ownMen: true })).toThrow('no ratings');
  });
});
