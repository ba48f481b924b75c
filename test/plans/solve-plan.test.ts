import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { BASE_SPOTS } from '../../src/diamond/field.ts';
import { legalTwoASide } from '../../src/diamond/playing-rules.ts';
import type { Plan, PlanQuestion } from '../../src/plans/plan-types.ts';
import { PlanSolver, solvePlan } from '../../src/plans/solve-plan.ts';
import { coversFirst } from '../../src/plans/spot-limits.ts';
import { readSkills } from '../../src/ratings/skills.ts';
import { judgeByTruth, meanMoveFt, withFewBalls } from '../truth/plan-truth.ts';
import { truePeople } from '../truth/true-batters.ts';
import { battersSeen, type PlannedLeague, plannedLeague } from './plan-grounds.ts';

/** One league serves plans and their truth (bench/plans-truth.ts measures the same with more of everything). */
const LEAGUE = { seasons: 1, teams: 2, seed: 5, ballsPerSeason: 5500 };
const LONG_MS = 300_000;
let planned: PlannedLeague;
let question: PlanQuestion;

beforeAll(() => {
  planned = plannedLeague(LEAGUE.seasons, LEAGUE.teams, LEAGUE.seed, LEAGUE.ballsPerSeason);
  const batter = battersSeen(planned.grounds, 100)[0]!;
  solver = new PlanSolver(planned.grounds);
  question = { batter, defence: 'Quillmouth', outs: 0, bases: 0, rule: 'two-a-side' };
  usual = solve();
}, LONG_MS);

const solve = (more: Partial<PlanQuestion> = {}) => solver.solve({ ...question, ...more });
/** Asked one question after another, as a thread is. */
let solver: PlanSolver;
/** The plan that most tests lay beside another, made once. */
let usual: Plan;

/** Six (x, y) pairs for positions 1 to 6. */
function sixStarts(plan: Plan): Float64Array {
  const starts = new Float64Array(12);
  for (const { position, start_x_ft, start_y_ft } of plan.starts) {
    if (position > 6) continue;
    starts[2 * position - 2] = start_x_ft;
    starts[2 * position - 1] = start_y_ft;
  }
  return starts;
}

const fromBaseFt = (base: number, x: number, y: number) => Math.hypot(x - BASE_SPOTS[base]!.x, y - BASE_SPOTS[base]!.y);

describe('a plan', () => {
  it('is the same for the same question; gains on balls that it was not made with; says within what range', () => {
    const plan = usual;
    expect(solvePlan(planned.grounds, question)).toEqual(plan);
    const { gain_runs_per_100: gain, runs_per_100: runs, outs_per_100: outs } = plan;
    expect(gain.value).toBeCloseTo(runs.even - runs.plan, 9);
    expect(gain.value).toBeGreaterThan(0);
    expect(runs.plan).toBeLessThan(runs.own);
    expect(runs.even - runs.plan).toBeCloseTo(0.75 * (outs.plan - outs.even), 9);
    expect(gain.lo80).toBeLessThan(gain.value);
    expect(gain.hi80).toBeGreaterThan(gain.value);
    expect(plan.starts.map(({ position }) => position)).toEqual([3, 4, 5, 6]);
    for (const { runs_per_100: cost } of plan.cost_of_error) expect(cost).toBeGreaterThan(-0.02);
  });

  it('is the same whatever was asked before, about the same batter or another', () => {
    const other = battersSeen(planned.grounds, 100)[1]!;
    const alone = (more: Partial<PlanQuestion>) => solvePlan(planned.grounds, { ...question, ...more });
    for (const more of [{ bases: 1 }, { bases: 1, seed: 2 }, { batter: other }, { bases: 6, outs: 2 }])
      expect(solve(more)).toEqual(alone(more));
  });

  it('has the names and the order of its JSON, no more and no less', () => {
    const names = (text: string) => text.split(' ');
    expect(Object.keys(usual)).toEqual(
      names(
        'batter side defence outs runners rule balls starts outs_per_100 runs_per_100 gain_runs_per_100 cost_of_error warnings',
      ),
    );
    expect(Object.keys(usual.starts[0]!)).toEqual(
      names('position fielder_id start_x_ft start_y_ft even_x_ft even_y_ft own_x_ft own_y_ft'),
    );
    for (const amounts of [usual.outs_per_100, usual.runs_per_100])
      expect(Object.keys(amounts)).toEqual(names('plan even own'));
    expect(Object.keys(usual.gain_runs_per_100)).toEqual(names('value lo80 hi80'));
    expect(Object.keys(usual.cost_of_error[0]!)).toEqual(names('position feet runs_per_100'));
    expect(JSON.parse(JSON.stringify(usual))).toEqual(usual);
  });

  it('obeys rule, bag, runner and depth in any situation, by checks that do not know how it was made', () => {
    const batters = battersSeen(planned.grounds, 60);
    const situation = fc.record({
      batter: fc.constantFrom(...batters),
      outs: fc.integer({ min: 0, max: 2 }),
      bases: fc.integer({ min: 0, max: 7 }),
    });
    fc.assert(
      fc.property(situation, (asked) => {
        const plan = solve(asked);
        const verdict = legalTwoASide(sixStarts(plan), 0);
        expect(verdict.legal, verdict.reason).toBe(true);
        const [first, second, , short] = plan.starts;
        const covered = plan.starts.some((s) => s.position <= 6 && coversFirst(s.start_x_ft, s.start_y_ft, 4.8));
        expect(covered).toBe(true);
        if ((asked.bases & 3) === 1) expect(fromBaseFt(1, first!.start_x_ft, first!.start_y_ft)).toBeLessThan(8.1);
        for (const s of [second!, short!]) {
          if ((asked.bases & 1) === 0 || asked.outs === 2) continue;
          expect(fromBaseFt(2, s.start_x_ft, s.start_y_ft)).toBeLessThan(34.1);
          expect(Math.hypot(s.start_x_ft, s.start_y_ft)).toBeLessThan(143.1);
        }
      }),
      { numRuns: 4, seed: 11 },
    );
  });

  it('lets the first baseman off the bag when told so, brings the infield in, and is no worse without the rule', () => {
    const off = solve({ bases: 1, hold: false }).starts[0]!;
    expect(fromBaseFt(1, off.start_x_ft, off.start_y_ft)).toBeGreaterThan(8.1);
    for (const s of solve({ bases: 4, depth: 'in' }).starts)
      expect(Math.hypot(s.start_x_ft, s.start_y_ft)).toBeLessThan(s.position === 4 || s.position === 6 ? 123.1 : 105.1);
    expect(solve({ rule: 'open' }).runs_per_100.plan).toBeLessThan(usual.runs_per_100.plan + 0.1);
  });

  it('warns of spots that are too near, and of a batter of whom nothing was seen', () => {
    expect(solve({ safeS: 2 }).warnings.join()).toContain('too near to be safe');
    expect(usual.warnings).toEqual([]);
    const pitcher = planned.league.plays.people.find((_, person) => !planned.grounds.ofBatter.has(person))!;
    const plan = solve({ batter: pitcher, side: 'R' });
    expect(plan.balls).toBe(0);
    expect(plan.warnings.join()).toContain('No ball of this batter');
  });

  it('places the outfield when asked, and is then worth more', () => {
    const plan = solve({ outfield: true });
    expect(plan.starts).toHaveLength(7);
    expect(plan.gain_runs_per_100.value).toBeGreaterThan(usual.gain_runs_per_100.value);
  });

  it('reckons with the men: one who reaches more gains, and the range of a swap knows how sure his rating is', () => {
    const { data } = planned.grounds;
    const shift = (person: string, mean: number, sd: number) =>
      [
        ['reach', 'ground'],
        ['finish', 'ground'],
        ['reach', 'air'],
      ].map(([kind, ballClass]) => ({
        ...{ kind, ballClass, position: 6, person, shift: mean, sd },
      }));
    const shortstop = usual.starts[3]!.fielder_id!;
    const swapWith = (sd: number) => {
      const shifts = [...shift(shortstop, 0, 0), ...shift(question.batter, 0.6, sd)];
      const skills = readSkills({ fromSeason: 2031, toSeason: 2031, shifts } as never);
      const grounds = { ...planned.grounds, data: { ...data, skills } };
      return solvePlan(grounds, { ...question, swap: new Map([[6, question.batter]]) }).swap![0]!;
    };
    const [sure, unsure] = [swapWith(0.01), swapWith(0.5)];
    expect(sure.gain_runs_per_100.lo80).toBeGreaterThan(0);
    const width = ({ gain_runs_per_100: { lo80, hi80 } }: typeof sure) => hi80 - lo80;
    expect(width(unsure)).toBeGreaterThan(2 * width(sure));
  });

  it('leans toward what a pitcher gives up', () => {
    const pitchers = [...planned.grounds.ofPitcher].filter(([, balls]) => balls.length > 100);
    const pitcher = planned.league.plays.people[pitchers[0]![0]]!;
    expect(solve({ pitcher }).outs_per_100.even).not.toBe(usual.outs_per_100.even);
    // A batter who never pitched.
    const idle = solve({ pitcher: question.batter });
    expect(idle.outs_per_100).toEqual(usual.outs_per_100);
    expect(idle.warnings.join()).toContain('No ball off this pitcher');
  });

  it('refuses clubs and people that the book does not know, and own men without ratings', () => {
    expect(() => solve({ defence: 'Nowhere' })).toThrow('knows no club');
    expect(() => solve({ batter: 'nobody' })).toThrow('knows no batter');
    expect(() => solve({ ownMen: true })).toThrow('no ratings');
  });
});

describe('plans against the simulator', () => {
  it(
    'gain at least 85 % of what brute force finds, and none loses beyond noise',
    () => {
      const people = truePeople(LEAGUE).filter(
        ({ index }) => (planned.grounds.ofBatter.get(index)?.length ?? 0) >= 150,
      );
      const batters = [people[0]!, people[Math.floor(people.length / 2)]!];
      const found = batters.map((batter) =>
        judgeByTruth(planned.grounds, planned.league.truth, batter, {}, 12_000, {
          coarse: { stepFt: 12, balls: 250 },
          fine: { stepFt: 4, balls: 400 },
        }),
      );
      const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
      const [gain, best] = [sum(found.map((each) => each.gain)), sum(found.map((each) => each.best))];
      const said = found
        .map((each) => `${each.gain.toFixed(2)} of ${each.best.toFixed(2)} +- ${each.error.toFixed(2)}`)
        .join(', ');
      expect(gain, said).toBeGreaterThan(0.85 * best);
      expect(gain, said).toBeGreaterThan(4 * Math.hypot(...found.map(({ error }) => error)));
      for (const each of found) expect(each.gain, said).toBeGreaterThan(-3 * each.error);
    },
    LONG_MS,
  );

  it('with five balls seen stand near the plan against an average batter of the side: nearer than half its own moves', () => {
    const people = truePeople(LEAGUE).filter(({ index }) => (planned.grounds.ofBatter.get(index)?.length ?? 0) >= 100);
    const planWith = (most: number, { id, batsLeft }: (typeof people)[number]) =>
      solvePlan(withFewBalls(planned.grounds, most), { ...question, batter: id, side: batsLeft ? 'L' : 'R' });
    let [fromAverage, fromEven] = [0, 0];
    for (const left of [true, false]) {
      const batters = people.filter(({ batsLeft }) => batsLeft === left).slice(0, 2);
      const average = sixStarts(planWith(0, batters[0]!));
      for (const batter of batters) {
        const plan = planWith(5, batter);
        const even = plan.starts.flatMap(({ even_x_ft, even_y_ft }) => [even_x_ft, even_y_ft]);
        fromAverage += meanMoveFt(sixStarts(plan), average) / 4;
        fromEven += meanMoveFt(sixStarts(plan), Float64Array.from([0, 0, 0, 0, ...even])) / 4;
      }
    }
    // bench/RESULTS.md has the feet over 30 batters.
    expect(fromAverage).toBeLessThan(fromEven / 2);
  });
});
