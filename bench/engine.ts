/**
 * The fitting engine against mgcv's bam(discrete = TRUE): same rows, same bases and penalties (mgcv's "ps" on the same knots),
 * one thread each, turn by turn. `npx tsx bench/engine.ts [REPEATS]`; without R and its packages mgcv and jsonlite only this side runs.
 * Times are medians, the share is the median of those of the turns, of processor seconds: a busy machine disturbs both sides of a turn alike. Rows are
 * a demo league of more balls, simulated for the purpose: no row stands there twice. Cost against rows is drawn into bench/engine-cost.svg.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { collectChanceRows, reachData } from '../src/chances/chance-rows.ts';
import { selectGrounders } from '../src/chances/grounders.ts';
import { travelFit } from '../src/chances/travel-time.ts';
import { simulateLeague } from '../src/league/simulate-league.ts';
import { fitHere } from '../src/models/fitting.ts';
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
const LEAGUE = { seasons: 4, teams: 16, seed: 11, ballsPerSeason: 135_000 };
const SHORTSTOP = 5;
const GAP: Margin = { covariate: 'gap', lo: -60, hi: 60, segments: 12 };
const ARRIVAL: Margin = { covariate: 'arrival', lo: 0.3, hi: 4.3, segments: 8 };
const DIRECT: readonly Margin[] = [
  { covariate: 'bearing', lo: -46, hi: 46, segments: 9 },
  { covariate: 'speed', lo: 20, hi: 120, segments: 5 },
  { covariate: 'launch', lo: -60, hi: 20, segments: 4 },
];

const HELD_OUT_EVERY = 5;

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
  // Rows come in the order of the season: every k-th is held out, so that the others are as many as asked for, if there are so many.
  const known = Array.from({ length: data.count }, (_, row) => row).filter((row) =>
    margins.every(({ covariate }) => !Number.isNaN(data.covariates[covariate][row])),
  );
  const held = known.filter((_, k) => k % HELD_OUT_EVERY === HELD_OUT_EVERY - 1);
  const used = known.filter((_, k) => k % HELD_OUT_EVERY !== HELD_OUT_EVERY - 1).slice(0, train);
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
  const share = (of: 'cpu' | 'seconds') => median(own.map((run, k) => run[of] / theirs[k][of])).toFixed(3);
  console.log(
    `  share ${share('cpu')} of bam's processor time (${share('seconds')} by the clock), target ${given.target}; log loss ${(100 * (loss / answer.logLoss - 1)).toFixed(3)} % of bam's (${answer.R}, mgcv ${answer.mgcv})`,
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

/** Seconds of processor against rows, on logarithmic axes, as a drawing beside the results. */
function drawCosts(points: readonly CostPoint[]): string {
  const [width, height, left, bottom] = [560, 340, 70, 56];
  const x = (rows: number) => left + ((Math.log10(rows) - 3.8) / 2.4) * (width - left - 20);
  const y = (seconds: number) => height - bottom - ((Math.log10(seconds) + 2) / 3) * (height - bottom - 44);
  const text = (at: string, words: string, anchor = 'middle') =>
    `<text ${at} text-anchor="${anchor}" font-size="13">${words}</text>`;
  const line = (x1: number, y1: number, x2: number, y2: number, ink: string) =>
    `<line x1="${x1}" y1="${y1}" x2="${x2}" y2="${y2}" stroke="${ink}"/>`;
  const seconds = [0.01, 0.1, 1, 10];
  const path = points
    .map(({ rows, cpu }, k) => `${k === 0 ? 'M' : 'L'}${x(rows).toFixed(1)} ${y(cpu).toFixed(1)}`)
    .join(' ');
  const even = points.map(
    ({ rows }, k) =>
      `${k === 0 ? 'M' : 'L'}${x(rows).toFixed(1)} ${y((points[0].cpu * rows) / points[0].rows).toFixed(1)}`,
  );
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" font-family="sans-serif" fill="#1D2327">`,
    '<title>Cost of a reach surface against rows</title>',
    `<rect width="${width}" height="${height}" fill="#FBF9F4"/>`,
    text(`x="${left}" y="24"`, 'One reach surface, 15 x 11: seconds of processor against rows', 'start'),
    ...seconds.flatMap((s) => [
      line(left, y(s), width - 20, y(s), '#D8D4CA'),
      text(`x="${left - 8}" y="${y(s) + 4}"`, `${s} s`, 'end'),
    ]),
    ...points.map(({ rows }) => text(`x="${x(rows)}" y="${height - bottom + 20}"`, rows.toLocaleString('en-US'))),
    text(`x="${(left + width) / 2}" y="${height - 12}"`, 'rows (dashed: as if cost grew with them)'),
    `<path d="${even.join(' ')}" fill="none" stroke="#6B6F73" stroke-dasharray="4 4"/>`,
    `<path d="${path}" fill="none" stroke="#1F7A6D" stroke-width="2"/>`,
    ...points.flatMap(({ rows, cpu, cells }) => [
      `<circle cx="${x(rows)}" cy="${y(cpu)}" r="4" fill="#1F7A6D"/>`,
      text(
        `x="${x(rows)}" y="${y(cpu) - 12}"`,
        `${cpu.toFixed(2)} s, ${cells.toLocaleString('en-US')} cells`,
        rows > 5e5 ? 'end' : 'middle',
      ),
    ]),
    '</svg>',
    '',
  ].join('\n');
}

interface CostPoint {
  readonly rows: number;
  readonly cells: number;
  readonly cpu: number;
}

function costAgainstRows(given: Problem): void {
  const points = [1e4, 1e5, 1e6].map((count): CostPoint => {
    const longer = { ...given, train: stretched(given, count) };
    const runs = Array.from({ length: repeats }, () => timeFit(longer));
    const { record } = runs[0].model;
    const cells = record.cells ?? record.rows;
    const cpu = median(runs.map((run) => run.cpu));
    console.log(
      `  ${String(count).padStart(8)} rows, ${cells} cells: ${cpu.toFixed(2)} s of processor, ${median(runs.map((run) => run.seconds)).toFixed(2)} s by the clock, ${record.iterations} iterations`,
    );
    return { rows: count, cells, cpu };
  });
  writeFileSync(new URL('engine-cost.svg', import.meta.url), drawCosts(points));
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
  const rows = collectChanceRows(grounders, fitHere(travelFit(grounders)))[SHORTSTOP];
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
