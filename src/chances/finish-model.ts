import { INFIELD } from '../diamond/play-codes.ts';
import type { ModelData } from '../models/fit-model.ts';
import type { FittedModel } from '../models/fitted-model.ts';
import { type Fitting, together } from '../models/fitting.ts';
import type { Term } from '../models/terms.ts';
import type { FitChoices } from './fit-chance.ts';
import { beginningAt, nameFits, sameChoices } from './fit-choices.ts';
import {
  collectGathers,
  type Gathers,
  gatherColumns,
  gatherRows,
  keepGathers,
  possibleTargets,
  recordedTarget,
  recordedTargets,
} from './gathers.ts';
import type { Grounders } from './grounders.ts';
import {
  type ColumnsOf,
  fitsByKnowledge,
  isEnoughFor,
  type Knowledge,
  predictByKnowledge,
  sharesByLevel,
} from './knowledge.ts';
import { manTerm } from './man-term.ts';

/**
 * G: the chance of an out once a defender has the ball in hand at a place and time (method.md 3). One set of surfaces a
 * position; outfielders share one plain rate, since a grounder that is through is seldom an out.
 */
export interface FinishModel {
  /** Index 0 to 5: positions 1 to 6. Each holds the surfaces in the order of KNOWLEDGE, best knowledge first. */
  readonly infield: readonly (readonly FittedModel[])[];
  /** Chance of an out when an outfielder gathers a grounder; 0 when none was made. */
  readonly outfieldRate: number;
}

const TARGET_LEVELS = 5;
export const STATE_TERM: Term = { kind: 'random', covariate: 'state', levels: 24 };
const TARGET_TERM: Term = { kind: 'random', covariate: 'target', levels: TARGET_LEVELS };
const THROW_MARGIN = { covariate: 'throwFt', lo: 0, hi: 180, segments: 5 } as const;
export const RUNNER_TERM: Term = { kind: 'smooth', margin: { covariate: 'runner', lo: 3.6, hi: 5.2, segments: 5 } };

/**
 * His run from his start to the gather, toward first and away from home: a man who comes in or goes to his right throws
 * otherwise, from the same place and at the same time, than one who waited for the ball there. The set mark knows where he
 * stood, so the gathered mark must. Where no start was seen the chance is one over all runs, which is another than that of
 * the average run: a level of its own.
 */
const RUN_TERM: Term = {
  kind: 'tensor',
  margins: [
    { covariate: 'across', lo: -40, hi: 40, segments: 6 },
    { covariate: 'forward', lo: -40, hi: 60, segments: 5 },
  ],
};
/** How hard the ball was hit, beyond the time it took: on unseen games it helps a little. */
const SPEED_TERM: Term = { kind: 'smooth', margin: { covariate: 'speed', lo: 20, hi: 120, segments: 6 } };

/** G by place, time and run, when all are known. */
export const FINISH_TERMS: readonly Term[] = [
  { kind: 'tensor', margins: [{ covariate: 'timeLeft', lo: -1, hi: 4, segments: 8 }, THROW_MARGIN] },
  RUN_TERM,
  SPEED_TERM,
  TARGET_TERM,
  STATE_TERM,
];
const PLACE_TERMS: readonly Term[] = [
  { kind: 'tensor', margins: [{ covariate: 'fromHome', lo: 0, hi: 200, segments: 6 }, THROW_MARGIN] },
  RUN_TERM,
  RUNNER_TERM,
  TARGET_TERM,
  STATE_TERM,
];
const withoutRun = (terms: readonly Term[]) => terms.filter((term) => term !== RUN_TERM);

/** What may be known of a gather, best first, down to nothing but who and when the runner gets there. */
const KNOWLEDGE: Knowledge = [
  { name: 'place and time', needs: ['start', 'place', 'time'], terms: FINISH_TERMS },
  { name: 'place and time, no start', needs: ['place', 'time'], terms: withoutRun(FINISH_TERMS) },
  { name: 'place', needs: ['start', 'place'], terms: PLACE_TERMS },
  { name: 'place, no start', needs: ['place'], terms: withoutRun(PLACE_TERMS) },
  { name: 'gatherer', needs: [], terms: [RUNNER_TERM, STATE_TERM] },
];

export const FINISH_LEVELS = KNOWLEDGE.length;

/**
 * Fits G for positions 1 to 6. A gather without a recorded throw has no target: it is fitted twice, first without those
 * rows, at the levels of knowledge that such gathers ask, then with the base that the first fit thinks best, so that plays on which nobody
 * threw are not left out.
 */
export function* finishFits(grounders: Grounders, choices: FitChoices = {}): Fitting<FinishModel> {
  const infield = yield* together(INFIELD.map((position) => positionFinishFits(position, grounders, choices)));
  const outfield = gatherRows(grounders, (by) => by > 6);
  const outs = outfield.reduce((sum, at) => sum + grounders.closed[at], 0);
  return { infield, outfieldRate: outfield.length > 0 ? outs / outfield.length : 0 };
}

function* positionFinishFits(position: number, grounders: Grounders, choices: FitChoices): Fitting<FittedModel[]> {
  const rows = gatherRows(grounders, (by) => by === position);
  const gathers = collectGathers(grounders, position, rows, recordedTargets(grounders, rows));
  const open = rows.filter((_, k) => gathers.targets[k] === 0);
  if (open.length === 0) return yield* levelFits(grounders, gathers, choices);
  const shares = sharesByLevel(KNOWLEDGE, grounders, open);
  const asked = KNOWLEDGE.filter((_, level) => shares[level] > 0);
  const thrown = keepGathers(gathers, (k) => gathers.targets[k] > 0);
  const first = yield* levelFits(grounders, thrown, choices, asked);
  const targets = likelyTargets(
    KNOWLEDGE.map((known) => first[asked.indexOf(known)]),
    grounders,
    rows,
  );
  return yield* levelFits(grounders, { ...gathers, targets }, { ...beginningAt(nameFits(first)), ...choices });
}

/** Levels of knowledge that answer for fewer of a position's gathers are not fitted again. */
const WORTH_A_FIT = 0.1;

/**
 * Fits G again to the gathers on some grounders, without the choices that all of them made: terms, smoothing and the bases to which nobody
 * threw are those of `finish`, and so are levels of knowledge that answer for few gathers. `isKept` is asked by number of the grounder.
 */
export function* finishFitsOfSome(
  finish: FinishModel,
  grounders: Grounders,
  isKept: (at: number) => boolean,
): Fitting<FinishModel> {
  const infield = yield* together(
    finish.infield.map((levels, k) => positionFitsOfSome(k + 1, levels, grounders, isKept)),
  );
  return { infield, outfieldRate: finish.outfieldRate };
}

function* positionFitsOfSome(
  position: number,
  levels: readonly FittedModel[],
  grounders: Grounders,
  isKept: (at: number) => boolean,
): Fitting<FittedModel[]> {
  const rows = gatherRows(grounders, (by) => by === position);
  const gathers = collectGathers(grounders, position, rows, likelyTargets(levels, grounders, rows));
  const shares = sharesByLevel(KNOWLEDGE, grounders, rows);
  const wanted = KNOWLEDGE.filter((_, level) => shares[level] >= WORTH_A_FIT);
  const kept = keepGathers(gathers, (k) => isKept(rows[k]));
  const again = yield* levelFits(grounders, kept, sameChoices(nameFits(levels)), wanted);
  return levels.map((own, level) => again[wanted.indexOf(KNOWLEDGE[level])] ?? own);
}

/**
 * Gathers of one position with a recorded throw, place and time: rows on which terms of G can be tried. `at` numbers the
 * grounders.
 */
export function finishData(grounders: Grounders, position: number): ModelData & { readonly at: Int32Array } {
  const at = gatherRows(grounders, (by) => by === position).filter(
    (each) => recordedTarget(grounders, each) > 0 && isEnoughFor(grounders, each, KNOWLEDGE[0]),
  );
  const covariates = { ...gatherColumns(grounders, at, recordedTargets(grounders, at)) };
  return { count: at.length, at, covariates, response: Float64Array.from(at, (each) => grounders.closed[each]) };
}

function levelFits(
  grounders: Grounders,
  { position, rows, targets, men }: Gathers,
  choices: FitChoices,
  wanted: Knowledge = KNOWLEDGE,
): Fitting<FittedModel[]> {
  const average = columnsWith(grounders, targets);
  const columnsOf: ColumnsOf = (own, places) => ({
    ...average(own, places),
    man: Uint16Array.from(places, (k) => men.level[k]),
  });
  const knowledge = wanted.map((known) => ({ ...known, terms: [...known.terms, manTerm(men)] }));
  return fitsByKnowledge(`finish ${position}`, knowledge, grounders, rows, columnsOf, grounders.closed, choices);
}

function columnsWith(grounders: Grounders, targets: Uint8Array): ColumnsOf {
  return (own, places) => ({
    ...gatherColumns(
      grounders,
      own,
      Uint8Array.from(places, (k) => targets[k]),
    ),
  });
}

/** G of gathers by one position with given targets. */
function chancesWith(
  levels: readonly FittedModel[],
  grounders: Grounders,
  rows: Int32Array,
  targets: Uint8Array,
): Float64Array {
  return predictByKnowledge(levels, KNOWLEDGE, grounders, rows, columnsWith(grounders, targets));
}

/** Targets as recorded; where none is, the base with the best chance of an out. */
function likelyTargets(levels: readonly FittedModel[], grounders: Grounders, rows: Int32Array): Uint8Array {
  const targets = recordedTargets(grounders, rows);
  const best = new Float64Array(rows.length).fill(-1);
  for (let target = 1; target < TARGET_LEVELS; target += 1) {
    const open = Array.from(rows.keys()).filter(
      (k) =>
        recordedTarget(grounders, rows[k]) === 0 &&
        possibleTargets(grounders.table.bases[grounders.row[rows[k]]]).includes(target),
    );
    const tried = Int32Array.from(open, (k) => rows[k]);
    const chances = chancesWith(levels, grounders, tried, new Uint8Array(open.length).fill(target));
    open.forEach((k, i) => {
      if (chances[i] <= best[k]) return;
      best[k] = chances[i];
      targets[k] = target;
    });
  }
  return targets;
}

/** G of every grounder that somebody was seen to gather, before balancing; 0 for the others. */
export function finishChances(model: FinishModel, grounders: Grounders): Float64Array {
  const out = new Float64Array(grounders.count);
  model.infield.forEach((levels, k) => {
    const rows = gatherRows(grounders, (by) => by === k + 1);
    const chances = chancesWith(levels, grounders, rows, likelyTargets(levels, grounders, rows));
    rows.forEach((at, i) => {
      out[at] = chances[i];
    });
  });
  for (const at of gatherRows(grounders, (by) => by > 6)) out[at] = model.outfieldRate;
  return out;
}

/** What the gathered mark of one play rests on, for people who want to see it. */
export interface FinishView {
  /** Base number, 4 home, 0 for an outfielder's gather; and whether it was recorded or chosen as the best. */
  readonly target: number;
  readonly targetRecorded: boolean;
  readonly timeLeftS: number;
  readonly throwFt: number;
}

/** The view of one grounder that somebody gathered. */
export function viewFinish(model: FinishModel, grounders: Grounders, at: number): FinishView {
  const by = grounders.table.gatheredBy[grounders.row[at]];
  if (by > 6) return { target: 0, targetRecorded: false, timeLeftS: Number.NaN, throwFt: Number.NaN };
  const rows = Int32Array.of(at);
  const targets = likelyTargets(model.infield[by - 1], grounders, rows);
  const columns = gatherColumns(grounders, rows, targets);
  return {
    target: targets[0],
    targetRecorded: recordedTarget(grounders, at) > 0,
    timeLeftS: columns.timeLeft[0],
    throwFt: columns.throwFt[0],
  };
}
