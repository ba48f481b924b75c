/**
 * The fitting engine against mgcv's bam(discrete = TRUE): same rows, same bases and penalties (mgcv's "ps" on the same knots),
 * one thread each, turn by turn. `npx tsx bench/engine.ts [REPEATS]`; without R and its packages mgcv and jsonlite only this side runs.
 * Times are medians; the share is one of processor seconds, which a busy machine disturbs less than the clock. Rows are demo leagues of more balls, simulated for the purpose: no row stands there twice.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { collectChanceRows, reachData } from '../src/chances/chance-rows.ts';
import { selectGrounders } from '../src/chances/grounders.ts';
import { fitTravelTime } from '../src/chances/travel-time.ts';
import { simulateLeague } from '../src/league/simulate-league.ts';
import { fitModel, type Margin, type ModelData, predictMean, type Term } from '../src/models/index.ts';
import { logLoss } from '../src/numeric/scores.ts';

interface Problem {
  readonly name: string;
  readonly margins: readonly Margin[];
  readonly train: ModelData;
  readonly test: ModelData;
  /** Share of bam's time that is allowed. */
  readonly target: number;
}

const repeats = Number(process.argv[2] ?? 3);
/** The R to compare with. */
const rscript = process.env.RSCRIPT ?? 'Rscript';
const LEAGUE = { seasons: 4, teams: 16, seed: 11, ballsPerSeason: 175_000 };
const SHORTSTOP = 5;
const GAP: Margin = { covariate: 'gap', lo: -60, hi: 60, segments: 12 };
const ARRIVAL: Margin = { covariate: 'arrival', lo: 0.3, hi: 4.3, segments: 8 };
const DIRECT: readonly Margin[] = [
  { covariate: 'bearing', lo: -46, hi: 46, segments: 9 },
  { covariate: 'speed', lo: 20, hi: 120, segments: 5 },
  { covariate: 'launch', lo: -60, hi: 20, segments: 4 },
];

const median = (values: readonly number[]) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];

/** Rows by number; values outside a margin are moved to its end, as both sides would. */
function take(data: ModelData, margins: readonly Margin[], rows: readonly number[]): ModelData {
  const covariates = Object.fromEntries(
    margins.map(({ covariate, lo, hi }) => [
      covariate,
      Float64Array.from(rows, (row) => Math.min(Math.max(data.covariates[covariate][row], lo), hi)),
    ]),
  );
  return { count: rows.length, covariates, response: Float64Array.from(rows, (row) => data.response[row]) };
}

function problem(name: string, data: ModelData, margins: readonly Margin[], train: number, target: number): Problem {
  // Rows come in the order of the season: every k-th is held out.
  const known = Array.from({ length: data.count }, (_, row) => row).filter((row) =>
    margins.every(({ covariate }) => !Number.isNaN(data.covariates[covariate][row])),
  );
  const every = Math.max(Math.floor(known.length / Math.max(known.length - train, 1)), 2);
  const held = known.filter((_, k) => k % every === every - 1);
  const used = known.filter((_, k) => k % every !== every - 1).slice(0, train);
  return { name, margins, train: take(data, margins, used), test: take(data, margins, held), target };
}

function termOf(margins: readonly Margin[]): Term {
  return { kind: 'tensor', margins };
}

/** Seconds of one fit by the clock and of the processor (compiler and garbage collector included), and the fit. */
function timeFit({ name, margins, train }: Problem) {
  const began = performance.now();
  const used = process.cpuUsage();
  const model = fitModel({ name, family: 'binomial', terms: [termOf(margins)] }, train);
  const { user, system } = process.cpuUsage(used);
  return { seconds: (performance.now() - began) / 1000, cpu: (user + system) / 1e6, model };
}

function writeProblem(folder: string, { name, margins, train, test }: Problem): void {
  writeFileSync(join(folder, `${name}.json`), JSON.stringify({ margins, train: train.count, test: test.count }));
  const columns = [train, test].flatMap((data) => [
    ...margins.map(({ covariate }) => data.covariates[covariate] as Float64Array),
    data.response as Float64Array,
  ]);
  writeFileSync(join(folder, `${name}.bin`), Buffer.concat(columns.map((column) => Buffer.from(column.buffer))));
}

/** What R answers, or null where there is no R. */
function runBam(folder: string, name: string, times: number) {
  const script = new URL('r/engine-bam.R', import.meta.url).pathname;
  const env = { ...process.env, OMP_NUM_THREADS: '1', OPENBLAS_NUM_THREADS: '1' };
  const { status, stdout, stderr } = spawnSync(rscript, [script, folder, name, String(times)], {
    encoding: 'utf8',
    env,
  });
  if (status !== 0) {
    console.log(`  R did not run: ${String(stderr).trim().split('\n').at(-1)}`);
    return null;
  }
  return JSON.parse(stdout) as {
    seconds: number | number[];
    cpu: number | number[];
    logLoss: number;
    edf: number;
    coefficients: number;
    predictSeconds: number;
    R: string;
    mgcv: string;
  };
}

function compare(folder: string, given: Problem): void {
  writeProblem(folder, given);
  const own: { seconds: number; cpu: number }[] = [];
  const theirs: { seconds: number; cpu: number }[] = [];
  const { model } = timeFit(given);
  const loss = logLoss(predictMean(model, given.test.covariates, given.test.count), given.test.response);
  let answer: ReturnType<typeof runBam> = null;
  for (let k = 0; k < repeats; k += 1) {
    own.push(timeFit(given));
    answer = runBam(folder, given.name, 1);
    if (answer === null) break;
    theirs.push({ seconds: [answer.seconds].flat()[0], cpu: [answer.cpu].flat()[0] });
  }
  const { record, edf, design } = model;
  const times = (runs: readonly { seconds: number; cpu: number }[]) =>
    `${median(runs.map((run) => run.cpu)).toFixed(2)} s of processor, ${median(runs.map((run) => run.seconds)).toFixed(2)} s by the clock (${runs.length} runs)`;
  console.log(`${given.name}: ${record.rows} rows, ${record.cells ?? record.rows} cells, ${design.width} coefficients`);
  console.log(
    `  here  ${times(own)}, ${record.iterations} iterations, edf ${edf.toFixed(1)}, log loss ${loss.toFixed(6)}`,
  );
  if (answer === null) return;
  console.log(`  bam   ${times(theirs)}, edf ${answer.edf.toFixed(1)}, log loss ${answer.logLoss.toFixed(6)}`);
  const share = median(own.map((run) => run.cpu)) / median(theirs.map((run) => run.cpu));
  console.log(
    `  share ${share.toFixed(3)} of bam's processor time, target ${given.target}; log loss ${(100 * (loss / answer.logLoss - 1)).toFixed(3)} % of bam's (${answer.R}, mgcv ${answer.mgcv})`,
  );
}

/** Row k of a longer table: a row drawn from the data, each covariate moved a little, so that rows stay different. */
function stretched({ train, margins }: Problem, count: number): ModelData {
  const rows = Array.from({ length: count }, (_, k) => k % train.count);
  const data = take(train, margins, rows);
  margins.forEach(({ covariate, lo, hi }, m) => {
    const column = data.covariates[covariate] as Float64Array;
    for (let k = 0; k < count; k += 1) column[k] += (hi - lo) * 1e-3 * Math.sin((m + 1) * k);
  });
  return data;
}

function costAgainstRows(given: Problem): void {
  for (const count of [1e4, 1e5, 1e6]) {
    const longer = { ...given, train: stretched(given, count) };
    const runs = Array.from({ length: repeats }, () => timeFit(longer));
    const { record } = runs[0].model;
    console.log(
      `  ${String(count).padStart(8)} rows, ${record.cells ?? record.rows} cells: ${median(runs.map((run) => run.seconds)).toFixed(2)} s, ${record.iterations} iterations`,
    );
  }
}

function prediction(given: Problem): void {
  const { model } = timeFit(given);
  const many = stretched(given, 1e6);
  const seconds = Array.from({ length: Math.max(repeats, 3) }, () => {
    const began = performance.now();
    predictMean(model, many.covariates, many.count);
    return (performance.now() - began) / 1000;
  });
  console.log(`prediction of 1,000,000 chances: ${median(seconds).toFixed(3)} s, target 0.25 s`);
}

const folder = mkdtempSync(join(tmpdir(), 'leatherbook-engine-'));
try {
  const grounders = selectGrounders(simulateLeague(LEAGUE).plays);
  const rows = collectChanceRows(grounders, fitTravelTime(grounders))[SHORTSTOP];
  const reach = problem('reach', reachData(rows), [GAP, ARRIVAL], 90_000, 0.3);
  const direct = problem(
    'direct',
    {
      count: grounders.count,
      covariates: { bearing: grounders.bearingDeg, speed: grounders.exitSpeedMph, launch: grounders.launchAngleDeg },
      response: grounders.closed,
    },
    DIRECT,
    150_000,
    0.3,
  );
  compare(folder, reach);
  prediction(reach);
  console.log('cost against rows, the same surface:');
  costAgainstRows(reach);
  compare(folder, direct);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
