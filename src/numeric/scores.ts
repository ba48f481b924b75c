/** Scores of forecast probabilities against what happened; lower is better. Empty input gives NaN. */

/** Forecasts closer to 0 or 1 than this count as this close, so that one wrong certainty does not outweigh all else. */
const CERTAIN = 1e-15;

/** Surprise of one outcome (0 or 1) under a forecast, in nats. */
export function logLossOf(forecast: number, outcome: number): number {
  const p = Math.min(Math.max(forecast, CERTAIN), 1 - CERTAIN);
  return outcome === 1 ? -Math.log(p) : -Math.log(1 - p);
}

/** Mean surprise, nats. */
export function logLoss(forecasts: ArrayLike<number>, outcomes: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < forecasts.length; i += 1) sum += logLossOf(forecasts[i], outcomes[i]);
  return sum / forecasts.length;
}

/** Mean squared difference of forecast and outcome (Brier, Monthly Weather Review 78, 1950), in 0..1. */
export function brierScore(forecasts: ArrayLike<number>, outcomes: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < forecasts.length; i += 1) sum += (forecasts[i] - outcomes[i]) ** 2;
  return sum / forecasts.length;
}

/** Brier score of grouped forecasts: reliability - resolution + uncertainty. */
export interface BrierParts {
  /** How far groups of like forecasts are from what happened to them; 0 is best. */
  readonly reliability: number;
  /** How far what happened to the groups is from the mean; more is better. */
  readonly resolution: number;
  /** Variance of the outcomes; nobody's merit. */
  readonly uncertainty: number;
}

/**
 * Murphy's decomposition (Journal of Applied Meteorology 12, 1973) for groups with a forecast, an observed share and a
 * weight each. Weights need not add up to one. With one forecast a group the parts add up to the Brier score exactly.
 */
export function decomposeBrier(
  forecasts: ArrayLike<number>,
  shares: ArrayLike<number>,
  weights: ArrayLike<number>,
): BrierParts {
  let total = 0;
  let happened = 0;
  for (let k = 0; k < weights.length; k += 1) {
    total += weights[k];
    happened += weights[k] * shares[k];
  }
  const mean = happened / total;
  let reliability = 0;
  let resolution = 0;
  for (let k = 0; k < weights.length; k += 1) {
    reliability += (weights[k] * (forecasts[k] - shares[k]) ** 2) / total;
    resolution += (weights[k] * (shares[k] - mean) ** 2) / total;
  }
  return { reliability, resolution, uncertainty: mean * (1 - mean) };
}

/** A mean with the standard error that whole clusters (games) rather than single rows give it. */
export interface ClusteredMean {
  readonly mean: number;
  readonly se: number;
}

/**
 * Mean of `values` and its standard error when rows of one cluster go together: the sandwich of the ratio estimator, sum of
 * squared cluster totals of (value - mean), times C / (C - 1). NaN for the error with fewer than two clusters.
 */
export function clusteredMean(values: ArrayLike<number>, cluster: ArrayLike<number>): ClusteredMean {
  const n = values.length;
  let sum = 0;
  for (let i = 0; i < n; i += 1) sum += values[i];
  const mean = sum / n;
  const totals = new Map<number, number>();
  for (let i = 0; i < n; i += 1) totals.set(cluster[i], (totals.get(cluster[i]) ?? 0) + values[i] - mean);
  let squares = 0;
  for (const total of totals.values()) squares += total * total;
  const clusters = totals.size;
  return { mean, se: clusters < 2 ? Number.NaN : Math.sqrt((squares * clusters) / (clusters - 1)) / n };
}
