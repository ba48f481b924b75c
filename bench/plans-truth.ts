/**
 * Plans against the demo league's truth (method.md 12, 13).
 *   npx tsx bench/plans-truth.ts [batters] [balls] [seed] [notes] [intervals]
 * Default 30 batters of whom at least 150 balls were seen, each plan judged on 80,000 balls that he truly hits (with few balls seen, a
 * quarter of that), with average men and the same luck for every placement. Best is what a brute-force search of the simulator finds
 * within the same limits. With the word `intervals` only the true gain under the rule two-a-side is measured, without a search.
 * `notes` is a file to which every measurement is written as soon as it is there: the same command takes up from there. A
 * measurement is of a batter and starts, whatever made the plan, so a change of the method spoils none.
 */
import { appendFileSync, existsSync, readFileSync } from 'node:fs';
import { legalTwoASide } from '../src/diamond/playing-rules.ts';
import type { Interval80 } from '../src/plans/plan-types.ts';
import type { PlanRule } from '../src/plans/spot-limits.ts';
import { plannedLeague } from '../test/plans/plan-grounds.ts';
import { mean } from '../test/truth/correlation.ts';
import {
  judgeByTruth,
  type Measured,
  meanMoveFt,
  planAgainst,
  type TrueSearch,
  withFewBalls,
} from '../test/truth/plan-truth.ts';
import { truePeople } from '../test/truth/true-batters.ts';

const BATTERS = Number(process.argv[2] ?? 30);
const BALLS = Number(process.argv[3] ?? 80_000);
const OPTIONS = { seasons: 3, teams: 12, seed: Number(process.argv[4] ?? 1) };
const NOTES = process.argv[5];
const SEARCH = { coarse: { stepFt: 10, balls: 800 }, fine: { stepFt: 3, balls: 4000 } };
const FEW = [0, 5, 30];
/** All balls that were seen. */
const WHOLE = Number.POSITIVE_INFINITY;

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
/** Standard normal quantile of 0.9. */
const NORMAL_90 = 1.2816;
const known = readNotes();

if (process.argv[6] === 'intervals')
  console.log(`- seed ${OPTIONS.seed}: ${sayCoverage(judgeAll('two-a-side', WHOLE, null))}`);
else {
  sayWhole('two-a-side', judgeAll('two-a-side', WHOLE, SEARCH));
  for (const most of FEW) sayFew(most, judgeAll('two-a-side', most, null));
  sayWhole('open', judgeAll('open', WHOLE, SEARCH));
}

function judgeAll(rule: PlanRule, most: number, search: TrueSearch | null): Judged[] {
  const few = most < WHOLE ? withFewBalls(grounds, most) : grounds;
  return batters.map((batter, k) => {
    console.error(`${rule}${few === grounds ? '' : `, ${most} balls`}: ${k + 1} of ${batters.length}`);
    // His own balls decide from which side he bats; without them he has to be asked about from the same.
    const question = few === grounds ? { rule } : { rule, side: batter.batsLeft ? ('L' as const) : ('R' as const) };
    const replays = few === grounds ? BALLS : BALLS / 4;
    const truth = judgeByTruth(few, league.truth, batter, question, replays, search, recall);
    const average = planAgainst(none, batter, { rule, side: truth.plan.side });
    return {
      balls: truth.plan.balls,
      gain: truth.gain,
      error: truth.error,
      stated: truth.plan.gain_runs_per_100,
      best: truth.best,
      legal: legalTwoASide(truth.starts, 0).legal === true,
      fromEvenFt: meanMoveFt(truth.starts, truth.even),
      fromAverageFt: meanMoveFt(truth.starts, average.starts),
    };
  });
}

function recall(key: string, measure: () => Measured): Measured {
  const seeded = `${OPTIONS.seed} ${key}`;
  const measured = known.get(seeded) ?? measure();
  if (NOTES !== undefined && !known.has(seeded))
    appendFileSync(NOTES, `${JSON.stringify({ key: seeded, measured })}\n`);
  known.set(seeded, measured);
  return measured;
}

function readNotes(): Map<string, Measured> {
  if (NOTES === undefined || !existsSync(NOTES)) return new Map();
  const lines = readFileSync(NOTES, 'utf8').split('\n');
  return new Map(
    lines.filter(isWhole).map((line) => {
      const { key, measured } = JSON.parse(line) as { key: string; measured: Measured };
      return [key, measured];
    }),
  );
}

/** A run that was killed may have left half a line. */
function isWhole(line: string): boolean {
  return line.endsWith('}}');
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

/** Coverage, and the spread of errors in units of their stated size, which is 1 where intervals are as wide as they should be. */
function sayCoverage(found: readonly Judged[]): string {
  const within = found.filter(({ gain, stated }) => gain >= stated.lo80 && gain <= stated.hi80).length;
  const width = mean(found.map(({ stated }) => stated.hi80 - stated.lo80));
  const squares = found.map(
    ({ gain, error, stated: { value, lo80, hi80 } }) =>
      (gain - value) ** 2 / (((hi80 - lo80) / (2 * NORMAL_90)) ** 2 + error ** 2),
  );
  return `stated 80 % intervals hold the true gain in ${within} of ${found.length}, mean width ${two(width)}, errors ${two(Math.sqrt(mean(squares)))} times their stated size`;
}

function two(value: number): string {
  return value.toFixed(2);
}
