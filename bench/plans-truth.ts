/**
 * Plans against the demo league's truth (method.md 12, 13).
 *   npx tsx bench/plans-truth.ts [batters] [balls] [seed] [notes]
 * Default 30 batters of whom at least 150 balls were seen, each plan judged on 80,000 balls that he truly hits (with few balls seen, a
 * quarter of that), with average men
 * and the same luck for every placement. Best is what a brute-force search of the simulator finds within the same limits.
 * `notes` is a file to which every batter is written as soon as he is judged: the same command takes up from there. It knows nothing
 * of the program's version, so begin another after a change of the method.
 */
import { appendFileSync, existsSync, readFileSync } from 'node:fs';
import { legalTwoASide } from '../src/diamond/playing-rules.ts';
import type { Interval80 } from '../src/plans/plan-types.ts';
import type { PlanRule } from '../src/plans/spot-limits.ts';
import { plannedLeague } from '../test/plans/plan-grounds.ts';
import { mean } from '../test/truth/correlation.ts';
import { judgeByTruth, meanMoveFt, withFewBalls } from '../test/truth/plan-truth.ts';
import { truePeople } from '../test/truth/true-batters.ts';

const BATTERS = Number(process.argv[2] ?? 30);
const BALLS = Number(process.argv[3] ?? 80_000);
const OPTIONS = { seasons: 3, teams: 12, seed: Number(process.argv[4] ?? 1) };
const NOTES = process.argv[5];
const SEARCH = { coarse: { stepFt: 10, balls: 800 }, fine: { stepFt: 3, balls: 4000 } };
const FEW = [0, 5, 30];

/** One plan as judged; gains in runs per 100 balls. */
interface Judged {
  readonly balls: number;
  readonly gain: number;
  readonly error: number;
  readonly stated: Interval80;
  readonly best: number;
  readonly legal: boolean;
  /** Mean of four men, feet: from the even spots, and from the plan against an average batter of his side. */
  readonly fromEvenFt: number;
  readonly fromAverageFt: number;
}

const { league, grounds } = plannedLeague(OPTIONS.seasons, OPTIONS.teams, OPTIONS.seed);
const none = withFewBalls(grounds, 0);
const people = truePeople(OPTIONS);
const seen = people.filter(({ index }) => (grounds.ofBatter.get(index)?.length ?? 0) >= 150);
const batters = seen.filter((_, k) => k % Math.max(1, Math.floor(seen.length / BATTERS)) === 0).slice(0, BATTERS);
const known = readNotes();

sayWhole('two-a-side', judgeAll('two-a-side', 'two-a-side', Number.POSITIVE_INFINITY));
for (const most of FEW) sayFew(most, judgeAll(`two-a-side, ${most} balls`, 'two-a-side', most));
sayWhole('open', judgeAll('open', 'open', Number.POSITIVE_INFINITY));

function judgeAll(what: string, rule: PlanRule, most: number): Judged[] {
  const few = most < Number.POSITIVE_INFINITY ? withFewBalls(grounds, most) : grounds;
  const search = few === grounds ? SEARCH : null;
  return batters.map((batter, k) => {
    const key = JSON.stringify([OPTIONS.seed, BALLS, what, batter.id]);
    const before = known.get(key);
    if (before !== undefined) return before;
    console.error(`${what}: ${k + 1} of ${batters.length}`);
    // His own balls decide from which side he bats; without them he has to be asked about from the same.
    const question = few === grounds ? { rule } : { rule, side: batter.batsLeft ? ('L' as const) : ('R' as const) };
    const truth = judgeByTruth(few, league.truth, batter, question, search === null ? BALLS / 4 : BALLS, search);
    const { side } = truth.plan;
    const average = judgeByTruth(none, league.truth, batter, { rule, side }, 1, null);
    const judged: Judged = {
      balls: truth.plan.balls,
      gain: truth.gain,
      error: truth.error,
      stated: truth.plan.gain_runs_per_100,
      best: truth.best,
      legal: legalTwoASide(truth.starts, 0).legal === true,
      fromEvenFt: meanMoveFt(truth.starts, truth.even),
      fromAverageFt: meanMoveFt(truth.starts, average.starts),
    };
    if (NOTES !== undefined) appendFileSync(NOTES, `${JSON.stringify({ key, judged })}\n`);
    return judged;
  });
}

function readNotes(): Map<string, Judged> {
  const lines = NOTES !== undefined && existsSync(NOTES) ? readFileSync(NOTES, 'utf8').trim().split('\n') : [];
  return new Map(
    lines
      .filter((line) => line !== '')
      .map((line) => {
        const { key, judged } = JSON.parse(line) as { key: string; judged: Judged };
        return [key, judged];
      }),
  );
}

function sayWhole(rule: string, found: readonly Judged[]): void {
  const of = (value: (each: Judged) => number) => mean(found.map(value));
  const [gain, best, beaten] = [of((f) => f.gain), of((f) => f.best), of((f) => Math.max(f.gain, f.best))];
  const worst = found.reduce((a, b) => (b.gain / b.error < a.gain / a.error ? b : a));
  const share = (value: number) => `${((100 * gain) / value).toFixed(1)} %`;
  console.log(
    `- ${rule}, ${found.length} batters with ${Math.min(...found.map(({ balls }) => balls))} to ${Math.max(...found.map(({ balls }) => balls))} balls seen: true gain ${two(gain)} runs per 100 balls against the even spots, stated ${two(of((f) => f.stated.value))}, best found ${two(best)}: ${share(best)} of it (${share(beaten)} where the plan counts as best when it beats the search); ${sayCoverage(found)}; smallest true gain ${two(worst.gain)} +- ${two(worst.error)}; ${found.filter(({ legal }) => !legal).length} plans not legal two a side`,
  );
}

function sayFew(most: number, found: readonly Judged[]): void {
  const of = (value: (each: Judged) => number) => two(mean(found.map(value)));
  console.log(
    `- two-a-side with ${most} balls seen: a man stands ${of((f) => f.fromEvenFt)} ft from his even spot and ${of((f) => f.fromAverageFt)} ft from the plan against an average batter of the side (mean of four); true gain ${of((f) => f.gain)}, stated ${of((f) => f.stated.value)}; ${sayCoverage(found)}`,
  );
}

function sayCoverage(found: readonly Judged[]): string {
  const within = found.filter(({ gain, stated }) => gain >= stated.lo80 && gain <= stated.hi80).length;
  const width = mean(found.map(({ stated }) => stated.hi80 - stated.lo80));
  return `stated 80 % intervals hold the true gain in ${within} of ${found.length}, mean width ${two(width)}`;
}

function two(value: number): string {
  return value.toFixed(2);
}
