import { choleskyInPlace } from '../numeric/cholesky.ts';
import { normalQuantile } from '../numeric/normal-quantile.ts';
import type { Random } from '../numeric/random.ts';
import type { Covariates } from './design.ts';
import type { FittedModel } from './fitted-model.ts';
import { allocateEntries, termEntriesInto } from './row-entries.ts';
import { termRows } from './term-rows.ts';

/** Linear predictors with what is known about them; one value a row. */
export interface LinearIntervals {
  readonly fit: Float64Array;
  /** Posterior standard deviation, smoothing parameters taken as known. */
  readonly se: Float64Array;
  readonly lo: Float64Array;
  readonly hi: Float64Array;
  /** lo and hi lie this many standard deviations from the fit. */
  readonly width: number;
}

/**
 * Bayesian intervals for the linear predictor of each row (Wahba 1983; Nychka, JASA 83, 1988: over the rows, they cover the
 * truth about as often as `level` says). `level` is in (0, 1), such as 0.95. Throws RangeError for a model that was loaded
 * without its covariance, and when a covariate is missing.
 */
export function linearIntervals(
  model: FittedModel,
  covariates: Covariates,
  count: number,
  level: number,
): LinearIntervals {
  const rows = sparseRows(model, covariates, count);
  return around(rows, standardDeviations(model, rows), normalQuantile(0.5 + 0.5 * level));
}

/**
 * Intervals that hold for all rows at once with probability `level`: the fit plus and minus the quantile of the largest
 * standardised deviation in draws from the posterior (Ruppert, Wand & Carroll, Semiparametric Regression, 2003, 6.5).
 * `draws` default 2,000. Throws as linearIntervals does.
 */
export function simultaneousIntervals(
  model: FittedModel,
  covariates: Covariates,
  count: number,
  level: number,
  random: Random,
  draws = 2000,
): LinearIntervals {
  const rows = sparseRows(model, covariates, count);
  const se = standardDeviations(model, rows);
  const n = model.design.width;
  const root = covarianceRoot(model);
  const normal = new Float64Array(n);
  const deviation = new Float64Array(n);
  const largest = new Float64Array(draws);
  for (let draw = 0; draw < draws; draw += 1) {
    for (let i = 0; i < n; i += 1) normal[i] = random.normal();
    for (let i = 0; i < n; i += 1) {
      let sum = 0;
      for (let k = 0; k <= i; k += 1) sum += root[i * n + k] * normal[k];
      deviation[i] = sum;
    }
    for (let row = 0; row < count; row += 1) {
      let sum = 0;
      for (let at = rows.start[row]; at < rows.start[row + 1]; at += 1)
        sum += rows.value[at] * deviation[rows.index[at]];
      if (se[row] > 0) largest[draw] = Math.max(largest[draw], Math.abs(sum) / se[row]);
    }
  }
  largest.sort();
  return around(rows, se, largest[Math.min(Math.ceil(level * draws), draws - 1)]);
}

interface SparseRows {
  readonly fit: Float64Array;
  readonly start: Int32Array;
  readonly index: Int32Array;
  readonly value: Float64Array;
}

function sparseRows({ design, coefficients }: FittedModel, covariates: Covariates, count: number): SparseRows {
  const rows = termRows(design, covariates, count, 0);
  const most = design.terms.reduce((sum, term) => sum + term.overlap, 1);
  const entries = allocateEntries(most * count);
  const start = new Int32Array(count + 1);
  const fit = new Float64Array(count);
  let at = 0;
  for (let row = 0; row < count; row += 1) {
    entries.index[at] = 0;
    entries.value[at] = 1;
    at += 1;
    rows.terms.forEach((term, t) => {
      at = termEntriesInto(term, row, 0, design.offsets[t], entries, at);
    });
    start[row + 1] = at;
    for (let k = start[row]; k < at; k += 1) fit[row] += entries.value[k] * coefficients[entries.index[k]];
  }
  return { fit, start, ...entries };
}

function covarianceOf({ covariance, design }: FittedModel): Float64Array {
  if (covariance === null)
    throw new RangeError(`model ${design.spec.name} was loaded from a file without its covariance: no intervals`);
  return covariance;
}

function standardDeviations(model: FittedModel, { fit, start, index, value }: SparseRows): Float64Array {
  const covariance = covarianceOf(model);
  const n = model.design.width;
  return fit.map((_, row) => {
    let variance = 0;
    for (let i = start[row]; i < start[row + 1]; i += 1) {
      let sum = 0;
      for (let k = start[row]; k < start[row + 1]; k += 1) sum += covariance[index[i] * n + index[k]] * value[k];
      variance += value[i] * sum;
    }
    return Math.sqrt(Math.max(variance, 0));
  });
}

const JITTER_SHARE = 1e-12;

/** Lower triangular root of the covariance; centred terms leave it short of full rank, hence a little on the diagonal. */
function covarianceRoot(model: FittedModel): Float64Array {
  const covariance = covarianceOf(model);
  const n = model.design.width;
  let trace = 0;
  for (let i = 0; i < n; i += 1) trace += covariance[i * n + i];
  for (let jitter = JITTER_SHARE * (trace / n); ; jitter *= 10) {
    const root = Float64Array.from(covariance);
    for (let i = 0; i < n; i += 1) root[i * n + i] += jitter;
    if (choleskyInPlace(root, n) < 0) return root;
    if (!Number.isFinite(jitter)) throw new RangeError(`model ${model.design.spec.name} has no finite covariance`);
  }
}

function around({ fit }: SparseRows, se: Float64Array, width: number): LinearIntervals {
  return {
    fit,
    se,
    lo: fit.map((value, row) => value - width * se[row]),
    hi: fit.map((value, row) => value + width * se[row]),
    width,
  };
}
