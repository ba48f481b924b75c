import type { Covariates, Design } from './design.ts';
import { familyOf } from './family.ts';
import type { FitProbe } from './fit-probe.ts';
import type { FitRecord } from './fit-record.ts';
import { linearPredictorInto } from './linear-predictor.ts';

/** A model after it has seen data; never changed. */
export interface FittedModel {
  readonly design: Design;
  /** Intercept first, then each term's block in term order. */
  readonly coefficients: Float64Array;
  /** One a penalty, in term order. */
  readonly smoothing: readonly number[];
  readonly termEdf: readonly number[];
  /** Effective degrees of freedom, intercept included. */
  readonly edf: number;
  /** Residual variance of a gaussian model; 1 for the other families. */
  readonly scale: number;
  /** Posterior covariance of the coefficients, width x width, scale included; null when a model file left it out. */
  readonly covariance: Float64Array | null;
  /** Precision of the weak prior that the fit was given. */
  readonly ridge: number;
  /** Some of the rows that it was fitted to, by which a file of it is checked. */
  readonly probe: FitProbe;
  readonly record: FitRecord;
}

/** Linear predictor of each row; NaN in a covariate leaves that term out. Throws RangeError when a covariate is missing. */
export function predictLinear(model: FittedModel, covariates: Covariates, count: number): Float64Array {
  const out = new Float64Array(count);
  linearPredictorInto(model.design, model.coefficients, covariates, count, out);
  return out;
}

/** Mean response of each row: a probability for a binomial model, a rate for a poisson one. Throws RangeError when a covariate is missing. */
export function predictMean(model: FittedModel, covariates: Covariates, count: number): Float64Array {
  const family = familyOf(model.design.spec.family);
  const out = predictLinear(model, covariates, count);
  for (let row = 0; row < count; row += 1) out[row] = family.mean(out[row]);
  return out;
}
