import type { BatterBalls, LeagueSide } from './batter-balls.ts';
import { pickBalls } from './batter-balls.ts';
import { FAIR_DEG } from './fair-bearing.ts';
import { type BallColumns, PLANNED_KINDS } from './seen-balls.ts';
import { dot, TILT_SIZE, tiltStatistics, tiltWeightsInto } from './tilt.ts';

/**
 * Densities over kind, bearing, exit speed and launch angle, a degree, mph and degree. A ball that lacks speed or launch angle
 * cannot be asked about: its density is NaN.
 */

/** Share of the normal-reference width for the league's own kernel; thousands of balls need little smoothing. */
const LEAGUE_BANDWIDTH = 0.6;

/** Kernel density of `balls`, each with a weight (adding up to one) and the widths of its kind, at ball `k` of `asked`. */
export function kernelDensity(
  balls: BallColumns,
  weight: Float64Array,
  width: readonly Float64Array[],
  asked: BallColumns,
  k: number,
): number {
  const kind = asked.kind[k];
  const [bearingWidth, speedWidth, launchWidth] = width[kind];
  const bearing = asked.bearingDeg[k];
  const [a, b, c] = [-0.5 / bearingWidth ** 2, -0.5 / speedWidth ** 2, -0.5 / launchWidth ** 2];
  let sum = 0;
  for (let i = 0; i < balls.count; i += 1) {
    if (balls.kind[i] !== kind) continue;
    const dv = balls.exitSpeedMph[i] - asked.exitSpeedMph[k];
    const dl = balls.launchAngleDeg[i] - asked.launchAngleDeg[k];
    const away = Math.exp(b * dv * dv + c * dl * dl);
    if (!(away > 0)) continue;
    const db = balls.bearingDeg[i] - bearing;
    // What a kernel would put in foul ground comes back across the line.
    const left = balls.bearingDeg[i] + bearing + 2 * FAIR_DEG;
    const right = balls.bearingDeg[i] + bearing - 2 * FAIR_DEG;
    sum += weight[i] * away * (Math.exp(a * db * db) + Math.exp(a * left * left) + Math.exp(a * right * right));
  }
  return sum / ((2 * Math.PI) ** 1.5 * bearingWidth * speedWidth * launchWidth);
}

/** The league's density of each ball of `asked`, before any tilt. */
export function leagueDensity(league: LeagueSide, asked: BallColumns): Float64Array {
  const { at } = league.halves[0];
  const balls = pickBalls(league.balls, at);
  const n = new Float64Array(Math.max(...PLANNED_KINDS) + 1);
  for (const kind of balls.kind) n[kind] += 1;
  const width = league.spread.map((spread, kind) =>
    spread.map((deviation) => LEAGUE_BANDWIDTH * deviation * Math.max(n[kind], 1) ** (-1 / 7)),
  );
  const weight = new Float64Array(balls.count).fill(1 / balls.count);
  return Float64Array.from({ length: asked.count }, (_, k) => kernelDensity(balls, weight, width, asked, k));
}

/** The three densities that are compared: of the league alone, of his own balls alone, and drawn together. */
export interface ComparedDensities {
  readonly league: Float64Array;
  readonly own: Float64Array;
  readonly drawn: Float64Array;
}

/** `league` is what `leagueDensity` says of the same balls, which costs most and is the same for every setting. */
export function compareDensities(batter: BatterBalls, asked: BallColumns, league: Float64Array): ComparedDensities {
  const { own, ownWeight, ownShare } = batter;
  const total = ownWeight.reduce((sum, weight) => sum + weight, 0);
  const weight = ownWeight.map((each) => each / total);
  const ofOwn = Float64Array.from({ length: asked.count }, (_, k) =>
    own.count === 0 ? 0 : kernelDensity(own, weight, batter.width, asked, k),
  );
  const factor = tiltFactors(batter, asked);
  const drawn = ofOwn.map((each, k) => ownShare * each + (1 - ownShare) * league[k] * factor[k]);
  return { league, own: ofOwn, drawn };
}

/** exp(theta . t) over its mean in the league, for each ball. */
function tiltFactors({ league, tilt }: BatterBalls, asked: BallColumns): Float64Array {
  const { statistics } = league.halves[0];
  const n = statistics.length / TILT_SIZE;
  const weights = new Float64Array(n);
  tiltWeightsInto(tilt.theta, statistics, weights);
  // weights are exp(theta . t) / sum, so the first ball tells the sum.
  const sum = Math.exp(dot(tilt.theta, statistics, 0)) / weights[0];
  const own = tiltStatistics(asked);
  return Float64Array.from(
    { length: asked.count },
    (_, k) => (n * Math.exp(dot(tilt.theta, own, k * TILT_SIZE))) / sum,
  );
}
