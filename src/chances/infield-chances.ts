import { alongLineFt, gapFt } from '../diamond/ball-line.ts';
import {
  type Curve,
  curveOf,
  evaluateCurve,
  evaluateSurface,
  levelEffect,
  type Surface,
  surfaceOf,
} from '../models/surface.ts';
import { expit } from '../numeric/logistic.ts';
import { arrivalS, spareS, throwFromLineFt, turnS, WIDEST_GAP_FT } from './chance-order.ts';
import type { InfieldModels } from './grounder-models.ts';
import { INFIELD_SIZE } from './grounders.ts';
import type { PositionChances } from './reach-model.ts';
import { BallClock } from './travel-time.ts';

/** What is known of one grounder before anybody moves. */
export interface Ball {
  sinBearing: number;
  cosBearing: number;
  exitSpeedMph: number;
  launchAngleDeg: number;
  surface: number;
  batterToFirstS: number;
  state: number;
}

interface PositionCurves {
  readonly models: PositionChances;
  readonly reachSurface: Surface;
  readonly reachFlight: Surface;
  readonly promiseSurface: Surface;
  readonly promiseSpare: Curve;
}

/**
 * Chances of the six infielders at any spot on one ball after another: h (reach) and c (promise of an out), method.md 2
 * and 3. What depends on the ball alone is summed once a ball. Holds scratch space: one a thread and loop.
 */
export class InfieldChances {
  private readonly clock: BallClock;
  private readonly curves: readonly PositionCurves[];
  /** What the ball alone adds to each man's logits; NaN until he is asked about. */
  private readonly reachOffset = new Float64Array(INFIELD_SIZE);
  private readonly promiseOffset = new Float64Array(INFIELD_SIZE);
  private exitSpeedMph = Number.NaN;
  private launchAngleDeg = Number.NaN;
  private surface = 0;
  private state = 0;
  private sinBearing = 0;
  private cosBearing = 1;
  private batterToFirstS = Number.NaN;
  /** The last spot's gap (feet), arrival and turn (seconds), chance to gather and chance of an out after it. */
  gap = Number.NaN;
  arrival = Number.NaN;
  turn = Number.NaN;
  reach = 0;
  promise = 0;

  constructor(models: InfieldModels) {
    this.clock = new BallClock(models.travel);
    this.curves = models.positions.map((position) => ({
      models: position,
      reachSurface: surfaceOf(position.reach, 'gap', 'arrival'),
      reachFlight: surfaceOf(position.reach, 'speed', 'launch'),
      promiseSurface: surfaceOf(position.promise, 'gap', 'arrival'),
      promiseSpare: curveOf(position.promise, 'spare'),
    }));
  }

  setBall(ball: Ball): void {
    this.sinBearing = ball.sinBearing;
    this.cosBearing = ball.cosBearing;
    this.batterToFirstS = ball.batterToFirstS;
    this.exitSpeedMph = ball.exitSpeedMph;
    this.launchAngleDeg = ball.launchAngleDeg;
    this.surface = ball.surface;
    this.state = ball.state;
    this.clock.setBall(ball.exitSpeedMph, ball.launchAngleDeg, ball.surface);
    this.reachOffset.fill(Number.NaN);
    this.promiseOffset.fill(Number.NaN);
  }

  /** Many men have no chance of a ball, and nothing needs to be summed for them. */
  private sumOffsets(k: number): void {
    if (!Number.isNaN(this.reachOffset[k])) return;
    const { models, reachFlight } = this.curves[k];
    const { reach, promise } = models;
    this.reachOffset[k] =
      reach.coefficients[0] +
      evaluateSurface(reachFlight, this.exitSpeedMph, this.launchAngleDeg) +
      levelEffect(reach, 'surface', this.surface);
    this.promiseOffset[k] = promise.coefficients[0] + levelEffect(promise, 'state', this.state);
  }

  /** Seconds after contact at which the ball is this far along its line. */
  secondsTo(distanceFt: number): number {
    return this.clock.secondsTo(distanceFt);
  }

  /** Chance that infielder k gathers a ball like this one, other than in its line, that comes by at this gap and time. */
  reachAt(k: number, gapFt: number, arrival: number): number {
    if (!(Math.abs(gapFt) <= WIDEST_GAP_FT)) return 0;
    this.sumOffsets(k);
    return expit(this.reachOffset[k] + evaluateSurface(this.curves[k].reachSurface, gapFt, arrival));
  }

  /** Puts infielder k (position - 1) at a spot and fills gap, arrival, turn, reach and promise. */
  standAt(k: number, xFt: number, yFt: number): void {
    this.gap = gapFt(this.sinBearing, this.cosBearing, xFt, yFt);
    this.arrival = arrivalS(this.clock, this.sinBearing, this.cosBearing, xFt, yFt);
    this.turn = turnS(this.gap, alongLineFt(this.sinBearing, this.cosBearing, xFt, yFt), this.arrival);
    if (!(Math.abs(this.gap) <= WIDEST_GAP_FT)) {
      this.reach = 0;
      this.promise = 0;
      return;
    }
    const curves = this.curves[k];
    this.reach = this.reachAt(k, this.gap, this.arrival);
    const throwFt = throwFromLineFt(this.sinBearing, this.cosBearing, xFt, yFt);
    this.promise = expit(
      this.promiseOffset[k] +
        evaluateSurface(curves.promiseSurface, this.gap, this.arrival) +
        evaluateCurve(curves.promiseSpare, spareS(this.batterToFirstS, this.arrival, throwFt)),
    );
  }
}
