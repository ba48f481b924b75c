import { SIDES } from '../diamond/play-codes.ts';
import type { ModelData } from '../models/fit-model.ts';
import { type FittedModel, predictMean } from '../models/fitted-model.ts';
import { type Fitting, together } from '../models/fitting.ts';
import type { Term } from '../models/terms.ts';
import { chanceFit, type FitChoices } from './fit-chance.ts';
import type { Grounders } from './grounders.ts';

/**
 * The direct opening: closed regressed on what is known before anybody moves, one model for each batter's side (method.md 5).
 * It knows nothing of starts, gathers or draws, and stands beside the opening mark as a check on it.
 */
export type DirectOpening = readonly FittedModel[];

export const DIRECT_TERMS: readonly Term[] = [
  {
    kind: 'tensor',
    margins: [
      // Pieces of some three degrees: the pitcher takes a narrow band out of the middle.
      { covariate: 'bearing', lo: -46, hi: 46, segments: 32 },
      { covariate: 'speed', lo: 20, hi: 120, segments: 7 },
    ],
  },
  { kind: 'smooth', margin: { covariate: 'launch', lo: -60, hi: 20, segments: 6 } },
  { kind: 'smooth', margin: { covariate: 'runner', lo: 3.6, hi: 5.2, segments: 5 } },
  { kind: 'random', covariate: 'state', levels: 24 },
];

function covariatesOf(grounders: Grounders, rows: readonly number[]) {
  const pick = (column: ArrayLike<number>) => Float64Array.from(rows, (at) => column[at]);
  return {
    bearing: pick(grounders.bearingDeg),
    speed: pick(grounders.exitSpeedMph),
    launch: pick(grounders.launchAngleDeg),
    runner: pick(grounders.batterToFirstS),
    state: pick(grounders.state),
    surface: pick(grounders.surface),
  };
}

function rowsOfSide(grounders: Grounders, side: number): number[] {
  const rows: number[] = [];
  for (let at = 0; at < grounders.count; at += 1)
    if (grounders.table.batterSide[grounders.row[at]] === side) rows.push(at);
  return rows;
}

/** Rows of one batter's side (0 left, 1 right) on which the direct opening is fitted; `at` numbers the grounders. */
export function directData(grounders: Grounders, side: number): ModelData & { readonly at: Int32Array } {
  const rows = rowsOfSide(grounders, side);
  return {
    count: rows.length,
    at: Int32Array.from(rows),
    covariates: covariatesOf(grounders, rows),
    response: Float64Array.from(rows, (at) => grounders.closed[at]),
  };
}

export function directFits(grounders: Grounders, choices: FitChoices = {}): Fitting<DirectOpening> {
  return together(
    SIDES.map((name, side) =>
      chanceFit(`direct opening ${name}`, DIRECT_TERMS, () => directData(grounders, side), choices),
    ),
  );
}

/** Direct opening of every grounder. Without bearing or speed the surface adds nothing and the average ball's chance remains. */
export function predictDirectOpening(models: DirectOpening, grounders: Grounders): Float64Array {
  const out = new Float64Array(grounders.count);
  models.forEach((model, side) => {
    const rows = rowsOfSide(grounders, side);
    const chances = predictMean(model, covariatesOf(grounders, rows), rows.length);
    rows.forEach((at, k) => {
      out[at] = chances[k];
    });
  });
  return out;
}
