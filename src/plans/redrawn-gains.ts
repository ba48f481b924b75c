import type { Random } from '../numeric/random.ts';
import type { Interval80 } from './plan-types.ts';
import { quantile, REPLICATES, type RedrawnFrom, redrawnWeights, weightedMean } from './redrawn-weights.ts';

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

  constructor(from: RedrawnFrom, pitcher: Float64Array | null, random: Random) {
    for (const weight of redrawnWeights(from, pitcher, random)) {
      this.luck[this.weights.length] = random.normal();
      this.weights.push(weight.slice());
    }
  }

  /** What `runs` (gained on each ball) come to per 100 balls under `weight`, and where it could as well lie; `sd` is what else is uncertain of it. */
  interval(weight: Float64Array, runs: Float64Array, sd = 0): Interval80 {
    const value = PER * weightedMean(weight, runs);
    const spread = Math.hypot(sd, MODEL_ERROR_SHARE * value);
    this.weights.forEach((redrawn, r) => {
      this.gains[r] = PER * weightedMean(redrawn, runs) + spread * this.luck[r];
    });
    return { value, lo80: quantile(this.gains, 0.1), hi80: quantile(this.gains, 0.9) };
  }
}
