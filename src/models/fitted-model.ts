import { buildRows, type Covariates, type Design, multiplyInto } from './design.ts';
import { familyOf } from './family.ts';
import type { FitRecord } from './fit-record.ts';

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
  /** Residual variance of a gaussian model; 1 for a binomial one. */
  readonly scale: number;
  readonly record: FitRecord;
}

/** Linear predictor of each row; NaN in a covariate leaves that term out. */
export function predictLinear(model: FittedModel, covariates: Covariates, count: number): Float64Array {
  const out = new Float64Array(count);
  multiplyInto(buildRows(model.design, covariates, count), model.coefficients, out);
  return out;
}

/** Mean response of each row: a probability for a binomial model. */
export function predictMean(model: FittedModel, covariates: Covariates, count: number): Float64Array {
  const family = familyOf(model.design.spec.family);
  return predictLinear(model, covariates, count).map(family.mean);
}
