import { type FittedModel, predictMean } from '../../models/fitted-model.ts';
import { type Fitting, together } from '../../models/fitting.ts';
import type { Term } from '../../models/terms.ts';
import { chanceFit, type FitChoices } from '../fit-chance.ts';
import type { AirBalls } from './air-balls.ts';
import type { Flights } from './carry.ts';

/** Direct opening of balls in the air (method.md 5): closed by what the ball alone tells, one model for each kind. */
export interface AirDirectOpening {
  /** Code of BALL_KINDS. */
  readonly kind: number;
  readonly model: FittedModel;
}

const DIRECT_TERMS: readonly Term[] = [
  {
    kind: 'tensor',
    margins: [
      { covariate: 'bearing', lo: -54, hi: 54, segments: 9 },
      { covariate: 'distance', lo: 20, hi: 400, segments: 8 },
    ],
  },
  { kind: 'smooth', margin: { covariate: 'hang', lo: 0.4, hi: 6.8, segments: 8 } },
  { kind: 'smooth', margin: { covariate: 'launch', lo: 0, hi: 70, segments: 6 } },
  { kind: 'smooth', margin: { covariate: 'speed', lo: 40, hi: 112, segments: 6 } },
];

export function* airDirectFits(
  balls: AirBalls,
  flights: Flights,
  choices: FitChoices = {},
): Fitting<AirDirectOpening[]> {
  const kinds = [...new Set(balls.kind)].sort();
  const dataOf = (kind: number) => {
    const rows = rowsOfKind(balls, kind);
    const response = Float64Array.from(rows, (at) => balls.closed[at]);
    return { count: rows.length, covariates: covariatesOf(balls, flights, rows), response };
  };
  const models = yield* together(
    kinds.map((kind) => chanceFit(`air direct opening ${kind}`, DIRECT_TERMS, () => dataOf(kind), choices)),
  );
  return kinds.map((kind, k) => ({ kind, model: models[k] }));
}

/** Direct opening of every ball, never NaN: what a ball lacks adds nothing, and the average ball of its kind remains. */
export function predictAirDirect(direct: readonly AirDirectOpening[], balls: AirBalls, flights: Flights): Float64Array {
  const mean = balls.closed.reduce((sum, closed) => sum + closed, 0) / Math.max(balls.count, 1);
  // A kind that the models never saw has nothing but the mean of all.
  const out = new Float64Array(balls.count).fill(mean);
  for (const { kind, model } of direct) {
    const rows = rowsOfKind(balls, kind);
    const chances = predictMean(model, covariatesOf(balls, flights, rows), rows.length);
    rows.forEach((at, k) => {
      out[at] = chances[k];
    });
  }
  return out;
}

function rowsOfKind(balls: AirBalls, kind: number): number[] {
  const rows: number[] = [];
  for (let at = 0; at < balls.count; at += 1) if (balls.kind[at] === kind) rows.push(at);
  return rows;
}

function covariatesOf(balls: AirBalls, flights: Flights, rows: readonly number[]) {
  const pick = (column: ArrayLike<number>) => Float64Array.from(rows, (at) => column[at]);
  return {
    bearing: pick(balls.bearingDeg),
    distance: pick(flights.distanceFt),
    hang: pick(flights.hangS),
    launch: pick(balls.launchAngleDeg),
    speed: pick(balls.exitSpeedMph),
  };
}
