import { BASE_SPOTS } from '../diamond/field.ts';
import { ON_FIRST, ON_SECOND, ON_THIRD } from '../diamond/play-codes.ts';
import { type FittedModel, predictMean } from '../models/fitted-model.ts';
import type { Term } from '../models/terms.ts';
import { fitChance } from './fit-chance.ts';
import { WHOLE } from './grades.ts';
import type { Grounders } from './grounders.ts';

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

/**
 * Seconds that a runner needs to the next base on a force, and home from third, from contact with a lead; usual values from
 * memory. Their level hardly matters, as each target has its own effect in the model.
 */
const FORCED_RUNNER_S = [Number.NaN, Number.NaN, 3.4, 3.4, 3.2];

const TARGET_LEVELS = 5;
const STATE_TERM: Term = { kind: 'random', covariate: 'state', levels: 24 };
const TARGET_TERM: Term = { kind: 'random', covariate: 'target', levels: TARGET_LEVELS };
const THROW_MARGIN = { covariate: 'throwFt', lo: 0, hi: 180, segments: 5 } as const;
const RUNNER_TERM: Term = { kind: 'smooth', margin: { covariate: 'runner', lo: 3.6, hi: 5.2, segments: 5 } };

/** What may be known of a gather, best first: place and time, place alone, nothing but who and when the runner gets there. */
const KNOWLEDGE: readonly { readonly name: string; readonly terms: readonly Term[] }[] = [
  {
    name: 'place and time',
    terms: [
      { kind: 'tensor', margins: [{ covariate: 'timeLeft', lo: -1, hi: 4, segments: 8 }, THROW_MARGIN] },
      TARGET_TERM,
      STATE_TERM,
    ],
  },
  {
    name: 'place',
    terms: [
      { kind: 'tensor', margins: [{ covariate: 'fromHome', lo: 0, hi: 200, segments: 6 }, THROW_MARGIN] },
      RUNNER_TERM,
      TARGET_TERM,
      STATE_TERM,
    ],
  },
  { name: 'gatherer', terms: [RUNNER_TERM, STATE_TERM] },
];

/** The covariates of one gather with one target base. */
interface Gather {
  timeLeft: number;
  throwFt: number;
  fromHome: number;
  runner: number;
  target: number;
  state: number;
}

/** Bases where an out could be made on a grounder: first, and any base to which a runner is forced; home with one on third. */
export function possibleTargets(bases: number): number[] {
  const targets = [1];
  if (bases & ON_FIRST) targets.push(2);
  if (bases & ON_FIRST && bases & ON_SECOND) targets.push(3);
  if (bases & ON_THIRD) targets.push(4);
  return targets;
}

function describeGather(grounders: Grounders, at: number, target: number): Gather {
  const { table } = grounders;
  const row = grounders.row[at];
  const x = table.gatherXFt[row];
  const y = table.gatherYFt[row];
  const runner = grounders.batterToFirstS[at];
  const base = BASE_SPOTS[target];
  return {
    timeLeft: (target === 1 ? runner : FORCED_RUNNER_S[target]) - table.gatherTimeS[row],
    throwFt: Math.hypot(x - base.x, y - base.y),
    fromHome: Math.hypot(x, y),
    runner,
    target,
    state: grounders.state[at],
  };
}

function knowledgeOf(gather: Gather): number {
  if (Number.isNaN(gather.throwFt)) return 2;
  return Number.isNaN(gather.timeLeft) ? 1 : 0;
}

/** Rows of gathers as columns, in the names of the terms. */
function gatherColumns(gathers: readonly Gather[]): Record<keyof Gather, Float64Array> {
  const column = (name: keyof Gather) => Float64Array.from(gathers, (gather) => gather[name]);
  return {
    timeLeft: column('timeLeft'),
    throwFt: column('throwFt'),
    fromHome: column('fromHome'),
    runner: column('runner'),
    target: column('target'),
    state: column('state'),
  };
}

/**
 * Fits G for positions 1 to 6. A gather without a recorded throw has no target: it is fitted twice, first without those
 * rows, then with the base that the first fit thinks best, so that plays on which nobody threw are not left out.
 */
export function fitFinish(grounders: Grounders, onFitted: (done: number) => void): FinishModel {
  const infield: FittedModel[][] = [];
  for (let position = 1; position <= 6; position += 1) {
    const rows = gatherRows(grounders, (by) => by === position);
    const first = fitLevels(position, grounders, rows, (at) => recordedTarget(grounders, at) ?? Number.NaN);
    infield.push(
      fitLevels(position, grounders, rows, (at) => recordedTarget(grounders, at) ?? bestTarget(first, grounders, at)),
    );
    onFitted(position);
  }
  const outfield = gatherRows(grounders, (by) => by > 6);
  const outs = outfield.reduce((sum, at) => sum + grounders.closed[at], 0);
  return { infield, outfieldRate: outfield.length > 0 ? outs / outfield.length : 0 };
}

function gatherRows(grounders: Grounders, wanted: (gatheredBy: number) => boolean): number[] {
  const rows: number[] = [];
  for (let at = 0; at < grounders.count; at += 1) {
    const by = grounders.table.gatheredBy[grounders.row[at]];
    if (by > 0 && grounders.grade[at] !== WHOLE && wanted(by)) rows.push(at);
  }
  return rows;
}

function recordedTarget(grounders: Grounders, at: number): number | undefined {
  return grounders.table.throwTo[grounders.row[at]] || undefined;
}

/** One model for each level of knowledge; rows that know less than the level are left out, rows that know more are used. */
function fitLevels(
  position: number,
  grounders: Grounders,
  rows: readonly number[],
  targetOf: (at: number) => number,
): FittedModel[] {
  return KNOWLEDGE.map(({ name, terms }, level) => {
    const gathers: Gather[] = [];
    const response: number[] = [];
    for (const at of rows) {
      const target = targetOf(at);
      if (Number.isNaN(target)) continue;
      const gather = describeGather(grounders, at, target);
      if (knowledgeOf(gather) > level) continue;
      gathers.push(gather);
      response.push(grounders.closed[at]);
    }
    return fitChance(`finish ${position} by ${name}`, terms, {
      count: gathers.length,
      covariates: gatherColumns(gathers),
      response,
    });
  });
}

function chanceOf(levels: readonly FittedModel[], gather: Gather): number {
  return predictMean(levels[knowledgeOf(gather)], gatherColumns([gather]), 1)[0];
}

function bestTarget(levels: readonly FittedModel[], grounders: Grounders, at: number): number {
  const bases = grounders.table.bases[grounders.row[at]];
  let best = 1;
  let bestChance = -1;
  for (const target of possibleTargets(bases)) {
    const chance = chanceOf(levels, describeGather(grounders, at, target));
    if (chance > bestChance) {
      best = target;
      bestChance = chance;
    }
  }
  return best;
}

/** What the gathered mark of one play rests on, for people who want to see it. */
export interface FinishView {
  /** Chance of an out, before balancing. */
  readonly chance: number;
  /** Base number, 4 home; and whether it was recorded or chosen as the best. */
  readonly target: number;
  readonly targetRecorded: boolean;
  readonly timeLeftS: number;
  readonly throwFt: number;
}

/** G of the grounder `at`, which somebody gathered; by an outfielder, the outfield's rate. */
export function viewFinish(model: FinishModel, grounders: Grounders, at: number): FinishView {
  const by = grounders.table.gatheredBy[grounders.row[at]];
  if (by > 6)
    return { chance: model.outfieldRate, target: 0, targetRecorded: false, timeLeftS: Number.NaN, throwFt: Number.NaN };
  const levels = model.infield[by - 1];
  const recorded = recordedTarget(grounders, at);
  const target = recorded ?? bestTarget(levels, grounders, at);
  const gather = describeGather(grounders, at, target);
  return {
    chance: chanceOf(levels, gather),
    target,
    targetRecorded: recorded !== undefined,
    timeLeftS: gather.timeLeft,
    throwFt: gather.throwFt,
  };
}
