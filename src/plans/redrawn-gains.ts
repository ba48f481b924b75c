import type { Random } from '../numeric/random.ts';
import type { Interval80 } from './plan-types.ts';
import { quantile, REPLICATES, type RedrawnFrom, redrawnWeights, weightedMean } from './redrawn-weights.ts';
import { TILT_SIZE } from './tilt.ts';

const PER = 100;
/**
 * One standard deviation of what the fitted chances get wrong about a gain, as a share of it: measured against the demo league's
 * truth (docs/decisions/062-interval-of-a-plan.md).
 */
const MODEL_ERROR_SHARE = 0.05;

/** Redrawn weights, kept for one gain after another on the same judging balls. */
export class RedrawnGains {
  private readonly weights: Float64Array[] = [];
  private readonly luck = new Float64Array(REPLICATES);
  private readonly gains = new Float64Array(REPLICATES);
  private readonly from: RedrawnFrom;

  constructor(from: RedrawnFrom, pitcher: Float64Array | null, random: Random) {
    this.from = from;
    for (const weight of redrawnWeights(from, pitcher, random)) {
      this.luck[this.weights.length] = random.normal();
      this.weights.push(weight.slice());
    }
  }

  /** What `runs` (gained on each ball) come to per 100 balls under each of the redrawn weights. */
  sums(runs: Float64Array): Float64Array {
    return Float64Array.from(this.weights, (redrawn) => PER * weightedMean(redrawn, runs));
  }

  /**
   * What `runs` come to per 100 balls under `weight`, and where it could as well lie; `sd` is what else is uncertain of it, `sums`
   * what `this.sums(runs)` says, for whoever knows it already.
   */
  interval(weight: Float64Array, runs: Float64Array, sd = 0, sums = this.sums(runs)): Interval80 {
    const value = PER * weightedMean(weight, runs);
    const spread = Math.hypot(sd, MODEL_ERROR_SHARE * value, this.leagueSd(weight, runs));
    for (let r = 0; r < sums.length; r += 1) this.gains[r] = sums[r] + spread * this.luck[r];
    return { value, lo80: quantile(this.gains, 0.1), hi80: quantile(this.gains, 0.9) };
  }

  /**
   * One standard deviation, per 100 balls, of what comes of judging by a sample of the league's balls. They were drawn
   * systematically from balls in an order in which neighbours are alike, so the draw's own part is that of the differences between
   * neighbours (Wolter, Introduction to Variance Estimation, 1985, chapter 7); the side's balls as a whole are a sample, too.
   */
  private leagueSd(weight: Float64Array, runs: Float64Array): number {
    const { leagueStatistics, leagueShare } = this.from;
    const count = leagueStatistics.length / TILT_SIZE;
    let [total, mean] = [0, 0];
    for (let k = 0; k < count; k += 1) {
      total += weight[k];
      mean += weight[k] * runs[k];
    }
    mean /= total;
    let [drawn, whole] = [0, 0];
    for (let k = 0; k < count; k += 1) {
      whole += (weight[k] * (runs[k] - mean)) ** 2;
      if (k > 0) drawn += (((weight[k] + weight[k - 1]) / 2) * (runs[k] - runs[k - 1])) ** 2 / 2;
    }
    return PER * Math.sqrt(drawn + leagueShare * whole);
  }
}
