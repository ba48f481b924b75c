import { maximise } from '../numeric/golden-section.ts';
import type { Estimate } from './man-posterior.ts';

/** Estimates drawn toward their common mean. */
export interface ShrunkMeans {
  readonly mean: number;
  /** Standard deviation between the things estimated, by restricted maximum likelihood; 0 when they differ no more than by chance. */
  readonly spread: number;
  readonly estimates: readonly Estimate[];
}

/** Fewer than this many estimates say nothing of how much the things differ, and are left as they are. */
const FEWEST = 4;

/**
 * Normal empirical Bayes: estimates y with known standard errors of things that differ normally about a mean. Each is drawn to the
 * mean by B = (k - 3) / (k - 1) * se^2 / (se^2 + spread^2), which with equal errors is the James-Stein estimate; the standard
 * deviations hold what is not known of mean and spread (Morris, JASA 78, 1983, formulas from memory). Fewer than four estimates are returned
 * as they came, with a spread of NaN.
 */
export function shrinkNormal(values: readonly number[], errors: readonly number[]): ShrunkMeans {
  const k = values.length;
  const variances = errors.map((error) => error * error);
  if (k < FEWEST) {
    const mean = values.reduce((sum, value) => sum + value, 0) / k;
    return { mean, spread: Number.NaN, estimates: values.map((value, i) => ({ mean: value, sd: errors[i] })) };
  }
  const spread = restrictedSpread(values, variances);
  const between = spread * spread;
  const mean = weightedMean(values, variances, between);
  const usual = variances.reduce((sum, variance) => sum + variance, 0) / k;
  const estimates = values.map((value, i) => {
    const share = variances[i] / (variances[i] + between);
    const drawn = ((k - 3) / (k - 1)) * share;
    const unsure = (2 / (k - 3)) * drawn * drawn * ((usual + between) / (variances[i] + between));
    const variance = variances[i] * (1 - ((k - 1) / k) * drawn) + unsure * (value - mean) ** 2;
    return { mean: mean + (1 - drawn) * (value - mean), sd: Math.sqrt(variance) };
  });
  return { mean, spread, estimates };
}

function weightedMean(values: readonly number[], variances: readonly number[], between: number): number {
  let [sum, weights] = [0, 0];
  values.forEach((value, i) => {
    const weight = 1 / (variances[i] + between);
    sum += weight * value;
    weights += weight;
  });
  return sum / weights;
}

/** Maximum of the restricted likelihood, the mean integrated out. */
function restrictedSpread(values: readonly number[], variances: readonly number[]): number {
  const likelihood = (spread: number) => {
    const between = spread * spread;
    const mean = weightedMean(values, variances, between);
    let [twice, weights] = [0, 0];
    values.forEach((value, i) => {
      const variance = variances[i] + between;
      twice += Math.log(variance) + (value - mean) ** 2 / variance;
      weights += 1 / variance;
    });
    return -0.5 * (twice + Math.log(weights));
  };
  const widest = Math.max(...values) - Math.min(...values);
  if (widest === 0) return 0;
  const peak = maximise(likelihood, 0, widest, 1e-9 * widest);
  return likelihood(peak) > likelihood(0) ? peak : 0;
}
