import { SURFACES } from '../diamond/play-codes.ts';
import { fitModel } from '../models/fit-model.ts';
import type { FittedModel } from '../models/fitted-model.ts';
import {
  type Curve,
  curveOf,
  evaluateCurve,
  levelEffect,
  type Surface,
  sliceSurfaceInto,
  surfaceOf,
} from '../models/surface.ts';
import type { Term } from '../models/terms.ts';
import type { Grounders } from './grounders.ts';

/**
 * Travel time of a grounder to a distance along its line (method.md 1): the time at constant exit speed times a slowdown.
 * The log of the slowdown is a surface in distance and exit speed, plus launch angle and surface of the field, fitted from
 * the places and times at which infielders gathered balls.
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

export const TRAVEL_TERMS: readonly Term[] = [
  {
    kind: 'tensor',
    margins: [
      { covariate: 'distance', lo: 0, hi: 200, segments: 8 },
      { covariate: 'speed', lo: 20, hi: 120, segments: 6 },
    ],
  },
  { kind: 'smooth', margin: { covariate: 'launch', lo: -60, hi: 20, segments: 6 } },
  { kind: 'random', covariate: 'surface', levels: SURFACES.length },
];

export function fitTravelTime(grounders: Grounders): TravelModel {
  const { table } = grounders;
  const distance: number[] = [];
  const speed: number[] = [];
  const launch: number[] = [];
  const surface: number[] = [];
  const response: number[] = [];
  for (let at = 0; at < grounders.count; at += 1) {
    const row = grounders.row[at];
    const time = table.gatherTimeS[row];
    const reached = Math.hypot(table.gatherXFt[row], table.gatherYFt[row]);
    const mph = grounders.exitSpeedMph[at];
    const infielder = table.gatheredBy[row] >= 1 && table.gatheredBy[row] <= 6;
    if (!infielder || !(time > 0) || !(mph > 0) || !(reached >= NEAREST_GATHER_FT && reached <= FARTHEST_GATHER_FT))
      continue;
    distance.push(reached);
    speed.push(mph);
    launch.push(grounders.launchAngleDeg[at]);
    surface.push(grounders.surface[at]);
    response.push(Math.log((time * mph * FPS_PER_MPH) / reached));
  }
  if (response.length < FEWEST_TIMES) return { fitted: null };
  const spec = { name: 'travel time', family: 'gaussian', terms: TRAVEL_TERMS } as const;
  return {
    fitted: fitModel(spec, { count: response.length, covariates: { distance, speed, launch, surface }, response }),
  };
}

/** Travel times of one ball after another; holds scratch space, so one per thread and loop. */
export class BallClock {
  private readonly surface: Surface | null;
  private readonly launch: Curve | null;
  private readonly fitted: FittedModel | null;
  private readonly slice: Float64Array;
  private curve: Curve | null = null;
  private feetPerSecond = Number.NaN;
  private offset = 0;

  constructor(model: TravelModel) {
    this.fitted = model.fitted;
    this.surface = model.fitted === null ? null : surfaceOf(model.fitted, 'distance', 'speed');
    this.launch = model.fitted === null ? null : curveOf(model.fitted, 'launch');
    this.slice = new Float64Array(this.surface?.first.size ?? 0);
  }

  /** Chooses the ball. */
  setBall(exitSpeedMph: number, launchAngleDeg: number, surfaceCode: number): void {
    this.feetPerSecond = exitSpeedMph * FPS_PER_MPH;
    if (this.fitted === null || this.surface === null || this.launch === null) return;
    this.curve = sliceSurfaceInto(this.surface, exitSpeedMph, this.slice);
    this.offset =
      this.fitted.coefficients[0] +
      evaluateCurve(this.launch, launchAngleDeg) +
      levelEffect(this.fitted, 'surface', surfaceCode);
  }

  /** Seconds after contact at which the ball is `distanceFt` from home along its line. */
  secondsTo(distanceFt: number): number {
    if (this.curve === null) return (DEFAULT_FADE_FT / this.feetPerSecond) * Math.expm1(distanceFt / DEFAULT_FADE_FT);
    return (distanceFt / this.feetPerSecond) * Math.exp(this.offset + evaluateCurve(this.curve, distanceFt));
  }
}
