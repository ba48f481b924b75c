import { SURFACES } from '../diamond/play-codes.ts';
import type { ModelData } from '../models/fit-model.ts';
import type { FittedModel } from '../models/fitted-model.ts';
import { type Fitting, oneFit } from '../models/fitting.ts';
import {
  type Curve,
  evaluateCurve,
  levelEffect,
  type Surface,
  sliceSurfaceInto,
  surfaceOf,
} from '../models/surface.ts';
import type { Term } from '../models/terms.ts';
import { chosenSettings, type FitChoices } from './fit-chance.ts';
import type { Grounders } from './grounders.ts';

/**
 * Travel time of a grounder to a distance along its line (method.md 1): the time at constant exit speed times a slowdown.
 * The log of the slowdown is a surface in distance and exit speed, one in distance and launch angle, and the surface of the
 * field, fitted from the places and times at which infielders gathered balls. A ball only ever gets slower, so that both rise with
 * distance, and time all the more (docs/decisions/013-travel-time.md).
 */
export interface TravelModel {
  /** null: the book has too few gather times, and the physical default serves. */
  readonly fitted: FittedModel | null;
}

const FPS_PER_MPH = 5280 / 3600;
/** Distance over which a ball on the ground keeps 1/e of its speed in the physical default; a round value, not measured. */
const DEFAULT_FADE_FT = 260;
const FEWEST_TIMES = 300;
const NEAREST_GATHER_FT = 15;
const FARTHEST_GATHER_FT = 200;
/** A line in distance may stand in either surface: this says how it is shared, and no more. */
const RIDGE = 1e-6;

const DISTANCE_MARGIN = { covariate: 'distance', lo: 0, hi: 200, segments: 8, monotone: 'increasing' } as const;
export const TRAVEL_TERMS: readonly Term[] = [
  { kind: 'tensor', margins: [DISTANCE_MARGIN, { covariate: 'speed', lo: 20, hi: 120, segments: 6 }] },
  { kind: 'tensor', margins: [DISTANCE_MARGIN, { covariate: 'launch', lo: -60, hi: 20, segments: 5 }] },
  { kind: 'random', covariate: 'surface', levels: SURFACES.length },
];

/** Rows on which travel time is fitted; the response is the log of the slowdown. */
export interface TravelData extends ModelData {
  readonly response: Float64Array;
  /** Number of the grounder. */
  readonly at: Int32Array;
}

/** Gathers by infielders at a recorded place and time. */
export function travelData(grounders: Grounders): TravelData {
  const { table } = grounders;
  const used: number[] = [];
  const distance: number[] = [];
  const response: number[] = [];
  for (let at = 0; at < grounders.count; at += 1) {
    const row = grounders.row[at];
    const time = table.gatherTimeS[row];
    const reached = Math.hypot(table.gatherXFt[row], table.gatherYFt[row]);
    const mph = grounders.exitSpeedMph[at];
    const infielder = table.gatheredBy[row] >= 1 && table.gatheredBy[row] <= 6;
    if (!infielder || !(time > 0) || !(mph > 0) || !(reached >= NEAREST_GATHER_FT && reached <= FARTHEST_GATHER_FT))
      continue;
    used.push(at);
    distance.push(reached);
    response.push(Math.log((time * mph * FPS_PER_MPH) / reached));
  }
  const pick = (column: ArrayLike<number>) => Float64Array.from(used, (at) => column[at]);
  return {
    count: used.length,
    at: Int32Array.from(used),
    covariates: {
      distance: Float64Array.from(distance),
      speed: pick(grounders.exitSpeedMph),
      launch: pick(grounders.launchAngleDeg),
      surface: pick(grounders.surface),
    },
    response: Float64Array.from(response),
  };
}

export function* travelFit(grounders: Grounders, choices: FitChoices = {}): Fitting<TravelModel> {
  const data = travelData(grounders);
  if (data.count < FEWEST_TIMES) return { fitted: null };
  const name = 'travel time';
  const terms = choices.terms?.(name, TRAVEL_TERMS) ?? TRAVEL_TERMS;
  const settings = { ridge: RIDGE, ...chosenSettings(name, terms, choices) };
  return { fitted: yield* oneFit({ name, family: 'gaussian', terms }, settings, () => data) };
}

/** Travel times of one ball after another; holds scratch space, so one per thread and loop. */
export class BallClock {
  private readonly bySpeed: Surface | null;
  private readonly byLaunch: Surface | null;
  private readonly fitted: FittedModel | null;
  private readonly slice: Float64Array;
  private readonly otherSlice: Float64Array;
  private curve: Curve | null = null;
  private feetPerSecond = Number.NaN;
  private offset = 0;

  constructor(model: TravelModel) {
    this.fitted = model.fitted;
    this.bySpeed = model.fitted === null ? null : surfaceOf(model.fitted, 'distance', 'speed');
    this.byLaunch = model.fitted === null ? null : surfaceOf(model.fitted, 'distance', 'launch');
    this.slice = new Float64Array(this.bySpeed?.first.size ?? 0);
    this.otherSlice = new Float64Array(this.slice.length);
  }

  /** Chooses the ball. */
  setBall(exitSpeedMph: number, launchAngleDeg: number, surfaceCode: number): void {
    this.feetPerSecond = exitSpeedMph * FPS_PER_MPH;
    if (this.fitted === null || this.bySpeed === null || this.byLaunch === null) return;
    // Both slices lie on the same pieces of distance, so that their sum is a curve on them, too.
    this.curve = sliceSurfaceInto(this.bySpeed, exitSpeedMph, this.slice);
    sliceSurfaceInto(this.byLaunch, launchAngleDeg, this.otherSlice);
    for (let k = 0; k < this.slice.length; k += 1) this.slice[k] += this.otherSlice[k];
    this.offset = this.fitted.coefficients[0] + levelEffect(this.fitted, 'surface', surfaceCode);
  }

  /** Seconds after contact at which the ball is `distanceFt` from home along its line. */
  secondsTo(distanceFt: number): number {
    if (this.curve === null) return (DEFAULT_FADE_FT / this.feetPerSecond) * Math.expm1(distanceFt / DEFAULT_FADE_FT);
    return (distanceFt / this.feetPerSecond) * Math.exp(this.offset + evaluateCurve(this.curve, distanceFt));
  }
}
