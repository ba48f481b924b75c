import { choleskyInPlace, solveCholeskyInPlace } from '../numeric/cholesky.ts';
import type { Random } from '../numeric/random.ts';
import type { BallColumns } from './seen-balls.ts';
import { GROUND, PLANNED_KINDS } from './seen-balls.ts';

/**
 * How one man's balls differ from the league's: each league ball x counts exp(theta . t(x)) times as much, where t are a few
 * numbers of the ball (an exponential family carried by the league's own balls; Efron & Tibshirani, Annals of Statistics 24(6),
 * 1996). theta is drawn toward zero, which is the league, as if it came from N(0, 1/precision).
 */
export const TILT_SIZE = 9;

/** Centres and scales of bearing, speed and launch angle: those of fair balls in general, so that theta is of order one. */
const BEARING_DEG = 20;
const USUAL_SPEED_MPH = 86;
const SPEED_MPH = 14;
const USUAL_LAUNCH_DEG = 10;
const LAUNCH_DEG = 25;

/** t of every ball: count * TILT_SIZE. What is not known of a ball says nothing, and is 0. */
export function tiltStatistics(balls: BallColumns): Float64Array {
  const out = new Float64Array(balls.count * TILT_SIZE);
  for (let k = 0; k < balls.count; k += 1) {
    const at = k * TILT_SIZE;
    const bearing = balls.bearingDeg[k] / BEARING_DEG;
    const speed = (balls.exitSpeedMph[k] - USUAL_SPEED_MPH) / SPEED_MPH;
    const launch = (balls.launchAngleDeg[k] - USUAL_LAUNCH_DEG) / LAUNCH_DEG;
    const ground = balls.kind[k] === GROUND ? 1 : 0;
    out[at] = bearing;
    out[at + 1] = bearing * bearing;
    out[at + 2] = Number.isNaN(speed) ? 0 : speed;
    out[at + 3] = Number.isNaN(launch) ? 0 : launch;
    out[at + 4] = Number.isNaN(launch) ? 0 : launch * launch;
    out[at + 5] = ground;
    out[at + 6] = balls.kind[k] === PLANNED_KINDS[2] ? 1 : 0;
    out[at + 7] = balls.kind[k] === PLANNED_KINDS[3] ? 1 : 0;
    out[at + 8] = ground * bearing;
  }
  return out;
}

/** A man's tilt and how sure it is. */
export interface Tilt {
  readonly theta: Float64Array;
  /** Lower Cholesky factor of the information at theta, prior included. */
  readonly information: Float64Array;
}

const MOST_STEPS = 30;
const SMALL_STEP = 1e-7;

/**
 * Penalised maximum likelihood by Newton's method: n balls with sum of t `sum`, against the league's balls with statistics
 * `league` (rows of TILT_SIZE). Few or no balls give theta near zero. Throws RangeError for an empty league.
 */
export function fitTilt(league: Float64Array, sum: Float64Array, n: number, precision: number): Tilt {
  const rows = league.length / TILT_SIZE;
  if (rows === 0) throw new RangeError('a tilt needs league balls, received none');
  const theta = new Float64Array(TILT_SIZE);
  const information = new Float64Array(TILT_SIZE * TILT_SIZE);
  const step = new Float64Array(TILT_SIZE);
  const moments = new Moments(league);
  for (let tries = 0; tries < MOST_STEPS; tries += 1) {
    moments.take(theta);
    for (let a = 0; a < TILT_SIZE; a += 1) {
      step[a] = sum[a] - n * moments.mean[a] - precision * theta[a];
      for (let b = 0; b <= a; b += 1) {
        const covariance = moments.square[a * TILT_SIZE + b] - moments.mean[a] * moments.mean[b];
        information[a * TILT_SIZE + b] = n * covariance + (a === b ? precision : 0);
      }
    }
    if (choleskyInPlace(information, TILT_SIZE) >= 0) throw new RangeError('a tilt needs a positive precision');
    solveCholeskyInPlace(information, TILT_SIZE, step);
    let largest = 0;
    for (const part of step) largest = Math.max(largest, Math.abs(part));
    // The likelihood is concave; a long step is cut so that the league's weights stay within what exp can hold.
    const share = Math.min(1, 1 / largest);
    for (let a = 0; a < TILT_SIZE; a += 1) theta[a] += share * step[a];
    if (largest < SMALL_STEP) break;
  }
  return { theta, information };
}

/** Mean and mean of products of t over the league under a tilt. */
class Moments {
  readonly mean = new Float64Array(TILT_SIZE);
  readonly square = new Float64Array(TILT_SIZE * TILT_SIZE);
  private readonly league: Float64Array;

  constructor(league: Float64Array) {
    this.league = league;
  }

  take(theta: Float64Array): void {
    const { league, mean, square } = this;
    mean.fill(0);
    square.fill(0);
    let total = 0;
    for (let at = 0; at < league.length; at += TILT_SIZE) {
      const weight = Math.exp(dot(theta, league, at));
      total += weight;
      for (let a = 0; a < TILT_SIZE; a += 1) {
        const part = weight * league[at + a];
        if (part === 0) continue;
        mean[a] += part;
        for (let b = 0; b <= a; b += 1) square[a * TILT_SIZE + b] += part * league[at + b];
      }
    }
    for (let a = 0; a < TILT_SIZE; a += 1) mean[a] /= total;
    for (let a = 0; a < square.length; a += 1) square[a] /= total;
  }
}

/** theta . t of the ball whose statistics begin at `at`. */
export function dot(theta: Float64Array, statistics: Float64Array, at: number): number {
  let sum = 0;
  for (let a = 0; a < TILT_SIZE; a += 1) sum += theta[a] * statistics[at + a];
  return sum;
}

/** Weights of league balls under a tilt, adding up to one, into `out` (one a ball). */
export function tiltWeightsInto(theta: Float64Array, league: Float64Array, out: Float64Array): void {
  let total = 0;
  for (let k = 0; k < out.length; k += 1) {
    out[k] = Math.exp(dot(theta, league, k * TILT_SIZE));
    total += out[k];
  }
  for (let k = 0; k < out.length; k += 1) out[k] /= total;
}

/**
 * Another tilt that his balls could as well have led to: one Newton step from the fitted one with the balls re-weighted
 * (`reweighted` is the sum over his balls of (weight - 1)(t - mean t)) and the prior's own spread. Into `out`.
 */
export function redrawTiltInto(
  tilt: Tilt,
  reweighted: Float64Array,
  precision: number,
  random: Random,
  out: Float64Array,
): void {
  for (let a = 0; a < TILT_SIZE; a += 1) out[a] = reweighted[a] + Math.sqrt(precision) * random.normal();
  solveCholeskyInPlace(tilt.information, TILT_SIZE, out);
  for (let a = 0; a < TILT_SIZE; a += 1) out[a] += tilt.theta[a];
}
