import type { UniformBasis } from '../splines/uniform-basis.ts';

/** One direction of a smooth: which covariate, over which range, in how many pieces, how rough it may not be. */
export interface Margin {
  readonly covariate: string;
  readonly lo: number;
  readonly hi: number;
  readonly segments: number;
  /** Order of the differences that are penalised; 2 leaves straight lines free. Default 2. */
  readonly penaltyOrder?: number;
}

/**
 * What a model is made of besides its intercept. Smooths and tensors are centred over the rows they were fitted on
 * (sum to zero), so that a row whose covariate is missing (NaN) gets the average row's value: nothing is added.
 * - `linear`: slope on (covariate - centre)
 * - `factor`: one free level each but level 0; covariate holds 0, 1, ..., levels - 1
 * - `random`: one level each, drawn toward zero by a variance chosen with the smoothing (a random intercept)
 * - `smooth`: cubic P-spline
 * - `tensor`: product of two or more P-spline margins, one penalty a margin
 */
export type Term =
  | { readonly kind: 'linear'; readonly covariate: string; readonly centre: number }
  | { readonly kind: 'factor'; readonly covariate: string; readonly levels: number }
  | { readonly kind: 'random'; readonly covariate: string; readonly levels: number }
  | { readonly kind: 'smooth'; readonly margin: Margin }
  | { readonly kind: 'tensor'; readonly margins: readonly Margin[] };

/** Covariates that a term reads, in order. */
export function termCovariates(term: Term): readonly string[] {
  switch (term.kind) {
    case 'smooth':
      return [term.margin.covariate];
    case 'tensor':
      return term.margins.map((margin) => margin.covariate);
    default:
      return [term.covariate];
  }
}

/** A name for messages and tables, such as `te(gap, arrival)`. */
export function termLabel(term: Term): string {
  const prefix = { linear: 'linear', factor: 'factor', random: 'random', smooth: 's', tensor: 'te' }[term.kind];
  return `${prefix}(${termCovariates(term).join(', ')})`;
}

/** A quadratic penalty on a term's coefficients, `width` x `width`, row by row. */
export type PenaltyMatrix = Float64Array;

/** A term made ready for arithmetic. */
export interface CompiledTerm {
  readonly term: Term;
  readonly covariates: readonly string[];
  /** Number of coefficients. */
  readonly width: number;
  /** The most coefficients that one row touches. */
  readonly overlap: number;
  /** Whether the sum of the term over the fitted rows is held at zero. */
  readonly centred: boolean;
  readonly penalties: readonly PenaltyMatrix[];
  readonly bases: readonly UniformBasis[];
  /** For each penalty j, tr(S^- S_j) where S is the sum of lambda_i S_i (generalised inverse). */
  pseudoTraces(lambdas: ArrayLike<number>): number[];
  /**
   * Writes the non-zero entries of a row: coefficient numbers into `index`, values into `value`, from `at` on.
   * `x` holds the term's covariates in order. Returns how many were written; 0 when a covariate is NaN.
   */
  rowInto(x: ArrayLike<number>, index: Int32Array, value: Float64Array, at: number): number;
}
