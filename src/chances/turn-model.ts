import { gapFt } from '../diamond/ball-line.ts';
import type { Covariates } from '../models/design.ts';
import type { FittedModel } from '../models/fitted-model.ts';
import { type Fitting, together } from '../models/fitting.ts';
import type { Term } from '../models/terms.ts';
import { WIDEST_GAP_FT } from './chance-order.ts';
import { RUNNER_TERM, STATE_TERM } from './finish-model.ts';
import type { FitChoices } from './fit-chance.ts';
import { type Grounders, INFIELD_SIZE } from './grounders.ts';
import { fitsByKnowledge, type Knowledge, predictByKnowledge } from './knowledge.ts';
import { pivotAtSecond, secondBaseFt, selectTurnPlays, startToSecondFt, type TurnPlays } from './turn-plays.ts';

/**
 * Chances of a second out where one was possible (method.md 6), at two moments of the play. Each list holds a model for
 * every level of knowledge, best first.
 */
export interface TurnModel {
  /** Once the ball is in hand, before anybody knows where it will be thrown. */
  readonly gathered: readonly FittedModel[];
  /** Once it is on its way to a man who could turn it. */
  readonly thrown: readonly FittedModel[];
}

/** How far the ball's line was from the starter's start, signed as everywhere; without a start nothing is added. */
const GAP_TERM: Term = {
  kind: 'smooth',
  margin: { covariate: 'gap', lo: -WIDEST_GAP_FT, hi: WIDEST_GAP_FT, segments: 10 },
};
const THROW_LEVELS = 5;
const SECOND_MARGIN = { covariate: 'secondFt', lo: 0, hi: 140, segments: 5 } as const;
/** Of who gathered and where he threw: a first baseman without a recorded throw is another thing than a shortstop. */
const WAY_TERM: Term = { kind: 'random', covariate: 'way', levels: INFIELD_SIZE * THROW_LEVELS };
const POSITION_TERM: Term = { kind: 'random', covariate: 'starter', levels: INFIELD_SIZE };
/** Where the starter and the pivot came from; nothing is added where their starts were not seen. */
const FROM_STARTS: readonly Term[] = [
  GAP_TERM,
  { kind: 'smooth', margin: { covariate: 'pivotFt', lo: 0, hi: 80, segments: 6 } },
];

const BY_PLACE_AND_TIME: readonly Term[] = [
  { kind: 'tensor', margins: [{ covariate: 'timeLeft', lo: -1, hi: 4, segments: 8 }, SECOND_MARGIN] },
  ...FROM_STARTS,
  STATE_TERM,
];
const BY_PLACE: readonly Term[] = [
  { kind: 'tensor', margins: [{ covariate: 'fromHome', lo: 0, hi: 200, segments: 6 }, SECOND_MARGIN] },
  ...FROM_STARTS,
  RUNNER_TERM,
  STATE_TERM,
];
const BY_GATHERER: readonly Term[] = [RUNNER_TERM, STATE_TERM];

function knowledgeWith(who: Term): Knowledge {
  return [
    { name: 'place and time', needs: ['place', 'time'], terms: [...BY_PLACE_AND_TIME, who] },
    { name: 'place', needs: ['place'], terms: [...BY_PLACE, who] },
    { name: 'gatherer', needs: [], terms: [...BY_GATHERER, who] },
  ];
}

/** Covariates of gathers, by number of the grounder, in the names of the terms. */
function turnColumns(grounders: Grounders, rows: Int32Array): Covariates {
  const { table, row } = grounders;
  const starterOf = (at: number) => table.gatheredBy[row[at]];
  const column = (value: (at: number) => number) => Float64Array.from(rows, value);
  return {
    timeLeft: column((at) => grounders.batterToFirstS[at] - table.gatherTimeS[row[at]]),
    secondFt: column((at) => secondBaseFt(grounders, at)),
    fromHome: column((at) => Math.hypot(table.gatherXFt[row[at]], table.gatherYFt[row[at]])),
    gap: column((at) => gapOfGatherer(grounders, at)),
    pivotFt: column((at) => startToSecondFt(grounders, at, pivotAtSecond(grounders, at))),
    runner: column((at) => grounders.batterToFirstS[at]),
    state: column((at) => grounders.state[at]),
    starter: column((at) => starterOf(at) - 1),
    way: column((at) => (starterOf(at) - 1) * THROW_LEVELS + table.throwTo[row[at]]),
  };
}

/** Every fit of it. */
export function listTurnFits({ gathered, thrown }: TurnModel): FittedModel[] {
  return [...gathered, ...thrown];
}

/** Fits both chances to all grounders of a book on which a second out was possible. */
export function* turnFits(grounders: Grounders, choices: FitChoices = {}): Fitting<TurnModel> {
  const plays = selectTurnPlays(grounders);
  const made = new Uint8Array(grounders.count);
  plays.at.forEach((at, k) => {
    made[at] = plays.made[k];
  });
  const columnsOf = (own: Int32Array) => turnColumns(grounders, own);
  const fit = (name: string, who: Term, rows: Int32Array) =>
    fitsByKnowledge(`turn ${name}`, knowledgeWith(who), grounders, rows, columnsOf, made, choices);
  const [gathered, thrown] = yield* together([
    fit('gathered', POSITION_TERM, plays.at),
    fit(
      'thrown',
      WAY_TERM,
      plays.at.filter((_, k) => plays.pivot[k] > 0),
    ),
  ]);
  return { gathered, thrown };
}

/** Chances of the second out of each play, before balancing; `thrown` is NaN where there was no pivot. */
export interface TurnChances {
  readonly gathered: Float64Array;
  readonly thrown: Float64Array;
}

export function turnChances(model: TurnModel, grounders: Grounders, plays: TurnPlays): TurnChances {
  const columnsOf = (own: Int32Array) => turnColumns(grounders, own);
  const thrown = predictByKnowledge(model.thrown, knowledgeWith(WAY_TERM), grounders, plays.at, columnsOf);
  return {
    gathered: predictByKnowledge(model.gathered, knowledgeWith(POSITION_TERM), grounders, plays.at, columnsOf),
    thrown: thrown.map((chance, k) => (plays.pivot[k] > 0 ? chance : Number.NaN)),
  };
}

/** Gap of the man who gathered, feet; NaN without a start or a bearing. */
function gapOfGatherer({ table, row, starts, sinBearing, cosBearing }: Grounders, at: number): number {
  const from = (at * INFIELD_SIZE + table.gatheredBy[row[at]] - 1) * 2;
  return gapFt(sinBearing[at], cosBearing[at], starts[from], starts[from + 1]);
}
