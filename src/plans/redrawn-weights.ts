import type { Random } from '../numeric/random.ts';
import type { BatterBalls } from './batter-balls.ts';
import { leanToward, OWN_COPIES } from './draw-balls.ts';
import { redrawTiltInto, TILT_SIZE, type Tilt, tiltWeightsInto } from './tilt.ts';

export const REPLICATES = 200;

/** What the weights are redrawn from. */
export interface RedrawnFrom {
  /** His own balls as they were seen: what each counts, and its statistics. */
  readonly ownWeight: Float64Array;
  readonly ownStatistics: Float64Array;
  readonly ownShare: number;
  readonly tilt: Tilt;
  readonly precision: number;
  /** Mean statistics of the tilted league, of the half that the tilt was fitted to. */
  readonly mean: Float64Array;
  /** Statistics of the league's balls to judge by. */
  readonly leagueStatistics: Float64Array;
  /** Share of the side's balls that they are. */
  readonly leagueShare: number;
}

export function redrawnFrom({ ownWeight, ownStatistics, ownShare, tilt, settings, league }: BatterBalls): RedrawnFrom {
  return {
    ownWeight,
    ownStatistics,
    ownShare,
    tilt,
    precision: settings.precision,
    mean: meanStatistics(tilt.theta, league.halves[0].statistics),
    leagueStatistics: league.halves[1].statistics,
    leagueShare: league.halves[1].at.length / league.count,
  };
}

/**
 * Weights of the judging balls as they could as well have been: his balls re-weighted (Bayesian bootstrap; Rubin, Annals of
 * Statistics 9(1), 1981), his tilt with them, and the tilt's prior drawn as well, so that a man with few balls is as uncertain
 * as men are different. One array a replicate, each adding up to one; it is filled anew with the next.
 */
export function* redrawnWeights(
  { ownWeight, ownStatistics, ownShare, tilt, precision, mean, leagueStatistics }: RedrawnFrom,
  pitcher: Float64Array | null,
  random: Random,
): Generator<Float64Array> {
  const inLeague = leagueStatistics.length / TILT_SIZE;
  const ownCount = ownWeight.length;
  const weight = new Float64Array(inLeague + ownCount * OWN_COPIES);
  const ofLeague = weight.subarray(0, inLeague);
  const luck = new Float64Array(ownCount);
  const reweighted = new Float64Array(TILT_SIZE);
  const theta = new Float64Array(TILT_SIZE);
  for (let r = 0; r < REPLICATES; r += 1) {
    reweighted.fill(0);
    let ownTotal = 0;
    for (let k = 0; k < ownCount; k += 1) {
      luck[k] = -Math.log(1 - random.next());
      ownTotal += luck[k] * ownWeight[k];
      for (let a = 0; a < TILT_SIZE; a += 1)
        reweighted[a] += (luck[k] - 1) * ownWeight[k] * (ownStatistics[k * TILT_SIZE + a] - mean[a]);
    }
    redrawTiltInto(tilt, reweighted, precision, random, theta);
    tiltWeightsInto(theta, leagueStatistics, ofLeague);
    for (let k = 0; k < inLeague; k += 1) weight[k] *= 1 - ownShare;
    for (let k = 0; k < ownCount; k += 1) {
      const share = (ownShare * luck[k] * ownWeight[k]) / ownTotal / OWN_COPIES;
      weight.fill(share, inLeague + k * OWN_COPIES, inLeague + (k + 1) * OWN_COPIES);
    }
    leanToward(pitcher, leagueStatistics, ownStatistics, OWN_COPIES, weight);
    yield weight;
  }
}

function meanStatistics(theta: Float64Array, statistics: Float64Array): Float64Array {
  const weight = new Float64Array(statistics.length / TILT_SIZE);
  tiltWeightsInto(theta, statistics, weight);
  const mean = new Float64Array(TILT_SIZE);
  weight.forEach((each, k) => {
    for (let a = 0; a < TILT_SIZE; a += 1) mean[a] += each * statistics[k * TILT_SIZE + a];
  });
  return mean;
}

export function weightedMean(weight: Float64Array, values: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < weight.length; k += 1) sum += weight[k] * values[k];
  return sum;
}

/** The value at a share of the values sorted (linear between neighbours). Values are sorted in place. */
export function quantile(values: Float64Array, share: number): number {
  values.sort();
  const place = share * (values.length - 1);
  const below = Math.floor(place);
  const above = Math.min(below + 1, values.length - 1);
  return values[below] + (place - below) * (values[above] - values[below]);
}
