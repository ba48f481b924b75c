/**
 * Choice of terms: each model of grounders with other terms than the book's, by log loss on games that the fit had not seen.
 * `npx tsx bench/terms.ts [SEED] [MODEL...]` tries them on the demo league of that seed; docs/decisions/010-choice-of-terms.md
 * says what was made of it. Smoothing is chosen on all games and held in the folds. Travel time is fitted to all games
 * before reach and promise are tried, as it does not know who gathers.
 */
import { turnS } from '../src/chances/chance-order.ts';
import { collectChanceRows, promiseData, reachData } from '../src/chances/chance-rows.ts';
import { DIRECT_TERMS, directData } from '../src/chances/direct-opening.ts';
import { FINISH_TERMS, finishData } from '../src/chances/finish-model.ts';
import { type Grounders, selectGrounders } from '../src/chances/grounders.ts';
import { PROMISE_TERMS, positionFits, reachTerms } from '../src/chances/reach-model.ts';
import { splitAt, takePlays } from '../src/chances/take-plays.ts';
import { TRAVEL_TERMS, travelData, travelFit } from '../src/chances/travel-time.ts';
import { assignFolds } from '../src/chances/trust/folds.ts';
import { additiveOnly } from '../src/chances/trust/plainer-models.ts';
import { playOut } from '../src/chances/trust/set-marks.ts';
import { gapFt } from '../src/diamond/ball-line.ts';
import { simulateLeague } from '../src/league/simulate-league.ts';
import type { FamilyName } from '../src/models/family.ts';
import { fitModel, type ModelData } from '../src/models/fit-model.ts';
import { FitFailure } from '../src/models/fit-record.ts';
import { predictLinear, predictMean } from '../src/models/fitted-model.ts';
import { fitHere } from '../src/models/fitting.ts';
import type { Margin, Term } from '../src/models/terms.ts';
import { clusteredMean, logLossOf } from '../src/numeric/scores.ts';

const FOLDS = 5;
const seed = Number(process.argv[2] ?? 1);
const only = process.argv.slice(3);
const league = simulateLeague({ seasons: 3, teams: 12, seed });
const grounders = selectGrounders(league.plays);
const { table } = grounders;
const fold = assignFolds(grounders, FOLDS, seed);
console.log(`Demo league of seed ${seed}: ${grounders.count} grounders, ${table.games.length} games, ${FOLDS} folds.`);
console.log(
  'Differences in thousandths of a nat a row, less is better; z is the difference over its standard error by game.\n',
);

/** Rows of one model: what it is fitted to, and which grounder each row belongs to. */
interface Rows extends ModelData {
  readonly label: string;
  readonly at: Int32Array;
}

interface Trial {
  readonly name: string;
  readonly terms: (label: string) => readonly Term[];
  /** Rows (by grounder) that the trial leaves out when it fits. */
  readonly leavesOut?: (at: number) => boolean;
}

/** Loss of every row under a fit to the other folds. */
function losses(rows: Rows, family: FamilyName, { terms, leavesOut }: Trial): Float64Array {
  const spec = { name: rows.label, family, terms: terms(rows.label) };
  const ridge = family === 'binomial' ? 0.01 : 1e-6;
  const usable = Array.from(rows.at.keys()).filter((k) => !leavesOut?.(rows.at[k]));
  const { smoothing } = fitModel(spec, take(rows, usable), { ridge });
  const loss = new Float64Array(rows.count);
  for (let held = 0; held < FOLDS; held += 1) {
    const train = take(
      rows,
      usable.filter((k) => fold[rows.at[k]] !== held),
    );
    const model = fitModel(spec, train, { ridge, fixedSmoothing: smoothing });
    const asked = Array.from(rows.at.keys()).filter((k) => fold[rows.at[k]] === held);
    const { covariates } = take(rows, asked);
    const answers =
      family === 'binomial'
        ? predictMean(model, covariates, asked.length)
        : predictLinear(model, covariates, asked.length);
    asked.forEach((k, i) => {
      loss[k] =
        family === 'binomial'
          ? logLossOf(answers[i], rows.response[k])
          : 0.5 * Math.log(2 * Math.PI * model.scale) + (rows.response[k] - answers[i]) ** 2 / (2 * model.scale);
    });
  }
  return loss;
}

function take(rows: Rows, kept: readonly number[]): ModelData {
  const covariates = Object.fromEntries(
    Object.entries(rows.covariates).map(([name, column]) => [name, Float64Array.from(kept, (k) => column[k])]),
  );
  return { count: kept.length, covariates, response: Float64Array.from(kept, (k) => rows.response[k]) };
}

/** null, said in the table, when a fit does not arrive. */
function answersOf(parts: readonly Rows[], family: FamilyName, trial: Trial): Float64Array[] | null {
  try {
    return parts.map((part) => losses(part, family, trial));
  } catch (thrown) {
    if (!(thrown instanceof FitFailure)) throw thrown;
    console.log(`  ${trial.name.padEnd(58)}  ${thrown.message}`);
    return null;
  }
}

/** The first trial is the book's; the others are compared with it, on the rows that `judged` keeps. */
function compare(
  model: string,
  parts: readonly Rows[],
  family: FamilyName,
  trials: readonly Trial[],
  judged: (at: number) => boolean = () => true,
): void {
  if (only.length > 0 && !only.some((word) => model.startsWith(word))) return;
  console.log(`${model} (${parts.reduce((sum, part) => sum + part.count, 0)} rows)`);
  console.log(`  ${'terms'.padEnd(58)}  log loss   diff     se      z  diff (z) by part`);
  let base: Float64Array[] = [];
  for (const trial of trials) {
    const own = answersOf(parts, family, trial);
    if (own === null) continue;
    if (base.length === 0) base = own;
    const all: number[] = [];
    const difference: number[] = [];
    const game: number[] = [];
    const byPart = parts.map((part, p) => {
      const from = difference.length;
      part.at.forEach((at, k) => {
        if (!judged(at)) return;
        all.push(own[p][k]);
        difference.push(1000 * (own[p][k] - base[p][k]));
        game.push(table.game[grounders.row[at]]);
      });
      const { mean, se } = clusteredMean(difference.slice(from), game.slice(from));
      return trial === trials[0]
        ? ''
        : `${part.label.split(' ').at(-1)}: ${mean.toFixed(2)} (${(mean / se).toFixed(1)})`;
    });
    const { mean, se } = clusteredMean(difference, game);
    const loss = all.reduce((sum, value) => sum + value, 0) / all.length;
    const numbers =
      trial === trials[0]
        ? ''
        : `${mean.toFixed(2).padStart(7)}${se.toFixed(2).padStart(7)}${(mean / se).toFixed(1).padStart(7)}  ${byPart.join('  ')}`;
    console.log(`  ${trial.name.padEnd(58)}  ${loss.toFixed(5).padStart(8)}${numbers}`);
  }
  console.log('');
}

const margin = (covariate: string, lo: number, hi: number, segments: number): Margin => ({
  covariate,
  lo,
  hi,
  segments,
});
const rising = (m: Margin): Margin => ({ ...m, monotone: 'increasing' });
const falling = (m: Margin): Margin => ({ ...m, monotone: 'decreasing' });
const smooth = (m: Margin): Term => ({ kind: 'smooth', margin: m });
const tensor = (...margins: Margin[]): Term => ({ kind: 'tensor', margins });
const levels = (covariate: string, n: number): Term => ({ kind: 'random', covariate, levels: n });
const always = (terms: readonly Term[]) => () => terms;

const GAP = margin('gap', -60, 60, 15);
const ARRIVAL = margin('arrival', 0.3, 4.3, 8);
const SPEED = margin('speed', 20, 120, 6);
const LAUNCH = margin('launch', -60, 20, 5);
const RUNNER = margin('runner', 3.6, 5.2, 5);
const SURFACE = levels('surface', 3);
const STATE = levels('state', 24);
const SIDE = levels('side', 2);

const travel = fitHere(travelFit(grounders));
const chanceRows = collectChanceRows(grounders, travel);
const throwsLeft = (at: number, position: number) => {
  const person = table.fielder[grounders.row[at] * 9 + position - 1];
  return person >= 0 && league.people.throws[person] === 'L';
};
const deflected = (at: number) => table.touchedBy[grounders.row[at]] === 1 && table.gatheredBy[grounders.row[at]] > 1;

/** Adds what only trials ask for: batter's side, the gap again for left-handed throwers alone, the absolute gap and which way it is. */
function withExtras(label: string, position: number, at: Int32Array, data: ModelData): Rows {
  const { gap, arrival } = data.covariates;
  const left = Float64Array.from(at, (g) => (throwsLeft(g, position) ? 1 : 0));
  const covariates = {
    ...data.covariates,
    side: Float64Array.from(at, (g) => table.batterSide[grounders.row[g]]),
    left,
    pace: arrival === undefined ? left : Float64Array.from(at, (_, k) => gap[k] / Math.max(arrival[k], 0.3)),
    apart: Float64Array.from(at, (_, k) => Math.abs(gap?.[k] ?? 0)),
    way: Float64Array.from(at, (_, k) => ((gap?.[k] ?? 0) < 0 ? 0 : 1)),
    leftGap: Float64Array.from(at, (_, k) => (left[k] === 1 && gap !== undefined ? gap[k] : Number.NaN)),
  };
  return { ...data, covariates, label, at };
}

const TRIED = [1, 3, 4, 5, 6];
const reachRows = TRIED.map((position) => {
  const data = reachData(chanceRows[position - 1]);
  return withExtras(`reach ${position}`, position, data.at, data);
});
const positionOf = (label: string) => Number(label.split(' ').at(-1));
const ground = (label: string): Term =>
  positionOf(label) <= 2 ? tensor(margin('gap', -60, 60, 8), margin('arrival', 0.3, 4.3, 4)) : tensor(GAP, ARRIVAL);
const reachWith = (name: string, ...more: Term[]): Trial => ({ name, terms: (label) => [ground(label), ...more] });
const FLIGHT = tensor(SPEED, LAUNCH);

compare('reach, terms', reachRows, 'binomial', [
  { name: 'as in the book', terms: (label) => reachTerms(positionOf(label)) },
  { name: 'each covariate by itself', terms: (label) => additiveOnly(reachTerms(positionOf(label))) },
  reachWith('gap x arrival, surface (no speed, no launch)', SURFACE),
  reachWith('gap x arrival, speed, surface', smooth(SPEED), SURFACE),
  reachWith('gap x arrival, launch, surface', smooth(LAUNCH), SURFACE),
  reachWith('gap x arrival, speed, launch, surface', smooth(SPEED), smooth(LAUNCH), SURFACE),
  reachWith('gap x arrival, speed x launch, surface', FLIGHT, SURFACE),
  reachWith('gap x arrival, speed x launch (no surface)', FLIGHT),
  reachWith("... and batter's side", FLIGHT, SURFACE, SIDE),
  reachWith('... and base-out state', FLIGHT, SURFACE, STATE),
  reachWith("... and the runner's time", FLIGHT, SURFACE, smooth(RUNNER)),
  reachWith(
    '... and the gap of left-handed throwers',
    FLIGHT,
    SURFACE,
    levels('left', 2),
    smooth(margin('leftGap', -60, 60, 8)),
  ),
  reachWith('... and gap x speed', FLIGHT, SURFACE, tensor(margin('gap', -60, 60, 10), margin('speed', 20, 120, 5))),
  reachWith('... and gap x launch', FLIGHT, SURFACE, tensor(margin('gap', -60, 60, 10), margin('launch', -60, 20, 4))),
]);
/** How fine the surface is, and whether it runs along gap or along pace: the speed at which he would have to cover the gap. */
const shaped = (name: string, m: Margin, arrivals: number): Trial => ({
  name,
  terms: () => [tensor(m, margin('arrival', 0.3, 4.3, arrivals)), FLIGHT, SURFACE],
});
compare('reach, shape of the surface of gap and arrival', reachRows, 'binomial', [
  { name: 'as in the book', terms: (label) => reachTerms(positionOf(label)) },
  shaped('gap 10 x arrival 6', margin('gap', -60, 60, 10), 6),
  shaped('gap 15 x arrival 8', GAP, 8),
  shaped('gap 15 x arrival 11', GAP, 11),
  shaped('gap 24 x arrival 8', margin('gap', -60, 60, 24), 8),
  shaped('pace 10 x arrival 6', margin('pace', -50, 50, 10), 6),
  shaped('pace 15 x arrival 8', margin('pace', -50, 50, 15), 8),
]);
/** A surface in the absolute gap for either way, each with its own level; held to fall with the gap, or not. */
const byWay =
  (hold: (m: Margin) => Margin) =>
  (label: string): Term[] => {
    const apart = positionOf(label) === 1 ? margin('apart', 0, 30, 8) : margin('apart', 0, 60, 8);
    const half = (level: number): Term => ({
      kind: 'tensor',
      margins: [hold(apart), margin('arrival', 0.3, 4.3, 8)],
      by: { covariate: 'way', level },
    });
    return [half(0), half(1), { kind: 'factor', covariate: 'way', levels: 2 }, FLIGHT, SURFACE];
  };
compare('monotone reach', reachRows, 'binomial', [
  { name: 'as in the book', terms: (label) => reachTerms(positionOf(label)) },
  { name: 'absolute gap x arrival, either way', terms: byWay((m) => m) },
  { name: '... falling with the gap', terms: byWay(falling) },
  {
    name: 'gap x arrival, rising with arrival',
    terms: (label) =>
      reachTerms(positionOf(label)).map((term, k) =>
        k === 0 && term.kind === 'tensor' ? { ...term, margins: [term.margins[0], rising(term.margins[1])] } : term,
      ),
  },
]);
compare('shape for the pitcher', reachRows.slice(0, 1), 'binomial', [
  { name: 'as in the book', terms: (label) => reachTerms(positionOf(label)) },
  shaped('gap within 60 ft 8 x arrival 4', margin('gap', -60, 60, 8), 4),
  shaped('gap within 60 ft 24 x arrival 4', margin('gap', -60, 60, 24), 4),
  shaped('gap within 30 ft 10 x arrival 4', margin('gap', -30, 30, 10), 4),
  shaped('gap within 30 ft 15 x arrival 4', margin('gap', -30, 30, 15), 4),
  shaped('gap within 20 ft 15 x arrival 4', margin('gap', -20, 20, 15), 4),
  shaped('gap within 30 ft 15 x arrival 8', margin('gap', -30, 30, 15), 8),
  shaped('pace within 30 ft/s 15 x arrival 4', margin('pace', -30, 30, 15), 4),
]);
compare(
  'deflections: reach of the others, judged on balls that the pitcher did not deflect',
  reachRows.slice(1),
  'binomial',
  [
    { name: 'as in the book', terms: (label) => reachTerms(positionOf(label)) },
    { name: 'deflected balls left out', terms: (label) => reachTerms(positionOf(label)), leavesOut: deflected },
  ],
  (at) => !deflected(at),
);

/** Log loss of who gathers, by grounder, when men have their turns otherwise: rows of all positions together. */
function orderLosses(turnOf: typeof turnS): Float64Array {
  const loss = new Float64Array(grounders.count);
  collectChanceRows(grounders, travel, turnOf).forEach((rows, k) => {
    const data = reachData(rows);
    const part = { ...data, label: `reach ${k + 1}` };
    losses(part, 'binomial', { name: part.label, terms: () => reachTerms(k + 1) }).forEach((own, row) => {
      loss[data.at[row]] += own;
    });
  });
  return loss;
}

if (only.length === 0 || only.includes('order')) {
  console.log('chance order: who gathers, thousandths of a nat a grounder');
  const own = orderLosses(turnS);
  const games = Array.from(grounders.row, (row) => table.game[row]);
  const tryOrder = (name: string, turnOf: typeof turnS) => {
    const other = orderLosses(turnOf);
    const difference = Array.from(own, (value, at) => 1000 * (other[at] - value));
    const { mean, se } = clusteredMean(difference, games);
    console.log(`  ${name.padEnd(40)} ${mean.toFixed(2)} (se ${se.toFixed(2)})`);
  };
  console.log(`  as in the book: ${((1000 * own.reduce((a, b) => a + b, 0)) / own.length).toFixed(1)}`);
  tryOrder('by arrival', (_gap, _along, arrival) => arrival);
  for (const each of [0.01, 0.02, 0.03])
    tryOrder(`arrival and ${each} s a foot of gap`, (gap, _, arrival) => arrival + each * Math.abs(gap));
  for (const each of [0.0005, 0.001])
    tryOrder(`arrival and ${each} s a square foot`, (gap, _, arrival) => arrival + each * gap * gap);
  console.log('');
}

/** The set mark of every ball of grade `full` when reach and promise were learnt from the other folds of `learnt`. */
function setLosses(learnt: Grounders): { at: number[]; loss: number[] } {
  const smoothing = new Map<string, readonly number[]>();
  for (const { reach, promise } of fitHere(positionFits(learnt, travel)))
    for (const model of [reach, promise]) smoothing.set(model.design.spec.name, model.smoothing);
  const at: number[] = [];
  const loss: number[] = [];
  for (let held = 0; held < FOLDS; held += 1) {
    const { held: own, others } = splitAt(fold, held);
    const choices = { smoothing: (name: string) => smoothing.get(name) };
    const models = fitHere(positionFits(takePlays(learnt, others), travel, choices));
    const asked = takePlays(grounders, own);
    const { set } = playOut(collectChanceRows(asked, travel), models, asked.count);
    own.forEach((g, k) => {
      if (Number.isNaN(set[k])) return;
      at.push(g);
      loss.push(logLossOf(set[k], grounders.closed[g]));
    });
  }
  return { at, loss };
}

if (only.length === 0 || only.includes('deflections')) {
  // Somebody else's gather of a deflected ball is taken as if nobody had gathered: the pitcher's touch ends the chance order.
  const gatheredBy = table.gatheredBy.map((by, row) => (table.touchedBy[row] === 1 && by > 1 ? 0 : by));
  const kept = setLosses(grounders);
  const ended = setLosses({ ...grounders, table: { ...table, gatheredBy } });
  const compareOn = (name: string, wanted: (at: number) => boolean) => {
    const rows = [...kept.at.keys()].filter((k) => wanted(kept.at[k]));
    const difference = rows.map((k) => 1000 * (ended.loss[k] - kept.loss[k]));
    const { mean, se } = clusteredMean(
      difference,
      rows.map((k) => table.game[grounders.row[kept.at[k]]]),
    );
    const loss = rows.reduce((sum, k) => sum + kept.loss[k], 0) / rows.length;
    console.log(
      `  ${name.padEnd(30)} ${String(rows.length).padStart(6)} balls, log loss ${loss.toFixed(5)}, ended at the pitcher's touch ${mean.toFixed(2)} (se ${se.toFixed(2)})`,
    );
  };
  console.log("set mark, deflected balls ended at the pitcher's touch");
  compareOn('all balls', () => true);
  compareOn('not deflected', (at) => !deflected(at));
  compareOn('deflected', deflected);
  console.log('');
}

const promiseRows = TRIED.map((position) => {
  const rows = chanceRows[position - 1];
  const at = rows.at.filter((_, k) => rows.gathered[k] === 1);
  return withExtras(`promise ${position}`, position, at, promiseData(rows, grounders));
});
const promise = (name: string, ...terms: Term[]): Trial => ({ name, terms: always(terms) });
const SLIM = tensor(margin('gap', -60, 60, 10), margin('arrival', 0.3, 4.3, 6));
const LATE = tensor(margin('arrival', 0.3, 4.3, 6), margin('runner', 3.6, 5.2, 4));
compare('promise', promiseRows, 'binomial', [
  { name: 'as in the book', terms: always(PROMISE_TERMS) },
  promise('gap, arrival, runner, state', smooth(GAP), smooth(ARRIVAL), smooth(RUNNER), STATE),
  promise('gap x arrival, runner, state', SLIM, smooth(RUNNER), STATE),
  promise('gap, arrival x runner, state', smooth(GAP), LATE, STATE),
  promise('gap x arrival, arrival x runner, state', SLIM, LATE, STATE),
  promise('gap x arrival, runner, state, speed', SLIM, smooth(RUNNER), STATE, smooth(SPEED)),
  promise('gap x arrival, runner, state, launch', SLIM, smooth(RUNNER), STATE, smooth(LAUNCH)),
  promise('gap x arrival, runner, state, speed x launch', SLIM, smooth(RUNNER), STATE, FLIGHT),
  promise("gap x arrival, runner, state, batter's side", SLIM, smooth(RUNNER), STATE, SIDE),
  promise('gap x arrival, runner, state, surface', SLIM, smooth(RUNNER), STATE, SURFACE),
  promise('gap x arrival, state (no runner)', SLIM, STATE),
  promise('gap x arrival, runner (no state)', SLIM, smooth(RUNNER)),
]);

const finishRows = [1, 2, 3, 4, 5, 6].map((position) => {
  const { at, ...data } = finishData(grounders, position);
  const start = (g: number, axis: number) => grounders.starts[(g * 6 + position - 1) * 2 + axis];
  const moved = (g: number) => {
    const row = grounders.row[g];
    return [table.gatherXFt[row] - start(g, 0), table.gatherYFt[row] - start(g, 1)];
  };
  const covariates = {
    ...data.covariates,
    gap: Float64Array.from(at, (g) =>
      gapFt(grounders.sinBearing[g], grounders.cosBearing[g], start(g, 0), start(g, 1)),
    ),
    ran: Float64Array.from(at, (g) => Math.hypot(...moved(g))),
    across: Float64Array.from(at, (g) => moved(g)[0]),
    forward: Float64Array.from(at, (g) => moved(g)[1]),
  };
  return withExtras(`finish ${position}`, position, at, { ...data, covariates });
});
const TIME_LEFT = margin('timeLeft', -1, 4, 8);
const THROW = margin('throwFt', 0, 180, 5);
const TARGET = levels('target', 5);
const finish = (name: string, ...terms: Term[]): Trial => ({ name, terms: always(terms) });
const THROWING = tensor(TIME_LEFT, THROW);
const RUN = tensor(margin('across', -40, 40, 6), margin('forward', -40, 60, 5));
const ACROSS = smooth(margin('across', -40, 40, 8));
const FORWARD = smooth(margin('forward', -40, 60, 8));
const APART = smooth(margin('gap', -60, 60, 10));
compare('finish, place and time known', finishRows, 'binomial', [
  { name: 'as in the book', terms: always(FINISH_TERMS) },
  finish('time left x throw, run, speed, target, state', THROWING, RUN, smooth(SPEED), TARGET, STATE),
  finish('time left x throw, run, target, state (no speed)', THROWING, RUN, TARGET, STATE),
  finish('time left x throw, target, state (no run)', THROWING, TARGET, STATE),
  finish('time left x throw, gap, target, state', THROWING, APART, TARGET, STATE),
  finish('time left x throw, run across, run forward, target, state', THROWING, ACROSS, FORWARD, TARGET, STATE),
  finish('time left, throw, gap, target, state', smooth(TIME_LEFT), smooth(THROW), APART, TARGET, STATE),
  finish('time left, gap, target, state (no throw)', smooth(TIME_LEFT), APART, TARGET, STATE),
  finish('time left x throw, run, target (no state)', THROWING, RUN, TARGET),
  finish('time left x throw, run, state (no target)', THROWING, RUN, STATE),
  finish('... and gap', THROWING, RUN, TARGET, STATE, APART),
  finish('... and how far he ran', THROWING, RUN, TARGET, STATE, smooth(margin('ran', 0, 60, 6))),
  finish("... and the runner's time", THROWING, RUN, TARGET, STATE, smooth(RUNNER)),
  finish('... and the throwing hand', THROWING, RUN, TARGET, STATE, levels('left', 2)),
  finish("... and batter's side", THROWING, RUN, TARGET, STATE, SIDE),
]);

const DISTANCE = margin('distance', 0, 200, 8);
/** A ball only ever gets slower, so that the mean slowdown on its way rises; time rises with distance all the more. */
const risingWithDistance = (term: Term): Term =>
  term.kind === 'tensor' ? { ...term, margins: [rising(term.margins[0]), ...term.margins.slice(1)] } : term;
const time = (name: string, ...terms: Term[]): Trial => ({ name, terms: always(terms) });
const travelled = travelData(grounders);
const side = Float64Array.from(travelled.at, (g) => table.batterSide[grounders.row[g]]);
const state = Float64Array.from(travelled.at, (g) => grounders.state[g]);
const travelRows = { ...travelled, label: 'travel time', covariates: { ...travelled.covariates, side, state } };
compare('travel time', [travelRows], 'gaussian', [
  { name: 'as in the book', terms: always(TRAVEL_TERMS) },
  time(
    'distance, speed, launch, surface',
    smooth(DISTANCE),
    smooth(SPEED),
    smooth(margin('launch', -60, 20, 6)),
    SURFACE,
  ),
  time('distance x speed, launch, surface', tensor(DISTANCE, SPEED), smooth(margin('launch', -60, 20, 6)), SURFACE),
  time('distance x speed, launch (no surface)', tensor(DISTANCE, SPEED), smooth(margin('launch', -60, 20, 6))),
  time('distance x speed, surface (no launch)', tensor(DISTANCE, SPEED), SURFACE),
  time('distance x speed, speed x launch, surface', tensor(DISTANCE, SPEED), FLIGHT, SURFACE),
  time('distance x speed, distance x launch, surface', tensor(DISTANCE, SPEED), tensor(DISTANCE, LAUNCH), SURFACE),
  time('distance x speed x launch, surface', tensor(DISTANCE, SPEED, LAUNCH), SURFACE),
  time("... and batter's side", ...TRAVEL_TERMS, SIDE),
  time('... and base-out state', ...TRAVEL_TERMS, STATE),
  time(
    'distance x speed rising with distance, launch, surface',
    risingWithDistance(tensor(DISTANCE, SPEED)),
    smooth(margin('launch', -60, 20, 6)),
    SURFACE,
  ),
]);

const directRows = [0, 1].map((side) => ({ label: `direct opening ${'LR'[side]}`, ...directData(grounders, side) }));
const BEARING = margin('bearing', -46, 46, 16);
const BALL = tensor(BEARING, margin('speed', 20, 120, 7));
const LOFT = smooth(margin('launch', -60, 20, 6));
const direct = (name: string, ...terms: Term[]): Trial => ({ name, terms: always(terms) });
compare('direct opening', directRows, 'binomial', [
  { name: 'as in the book', terms: always(DIRECT_TERMS) },
  direct(
    'bearing, speed, launch, runner, state',
    smooth(BEARING),
    smooth(margin('speed', 20, 120, 7)),
    LOFT,
    smooth(RUNNER),
    STATE,
  ),
  direct('bearing x speed, launch, runner, state', BALL, LOFT, smooth(RUNNER), STATE),
  direct('bearing x speed, launch, runner (no state)', BALL, LOFT, smooth(RUNNER)),
  direct('bearing x speed, launch, state (no runner)', BALL, LOFT, STATE),
  direct('bearing x speed, runner, state (no launch)', BALL, smooth(RUNNER), STATE),
  direct('bearing x speed, launch, runner, state, surface', BALL, LOFT, smooth(RUNNER), STATE, SURFACE),
  direct('bearing x speed, speed x launch, runner, state', BALL, FLIGHT, smooth(RUNNER), STATE),
  direct('bearing x speed, bearing x launch, runner, state', BALL, tensor(BEARING, LAUNCH), smooth(RUNNER), STATE),
]);
