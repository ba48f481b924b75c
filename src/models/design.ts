import { compileTerm } from './compile-term.ts';
import type { FamilyName } from './family.ts';
import { type CompiledTerm, type Term, termCovariates } from './terms.ts';

/** A model before it has seen data. */
export interface ModelSpec {
  readonly name: string;
  readonly family: FamilyName;
  /** The intercept is always there and not listed. */
  readonly terms: readonly Term[];
}

/** A specification made ready for arithmetic: coefficient 0 is the intercept, then each term's block. */
export interface Design {
  readonly spec: ModelSpec;
  readonly terms: readonly CompiledTerm[];
  /** First coefficient of each term. */
  readonly offsets: readonly number[];
  readonly width: number;
  /** The most coefficients one row touches, intercept included. */
  readonly overlap: number;
  /** Names of the covariates in the order of first use. */
  readonly covariates: readonly string[];
}

export function compileDesign(spec: ModelSpec): Design {
  const terms = spec.terms.map(compileTerm);
  const offsets: number[] = [];
  let width = 1;
  for (const term of terms) {
    offsets.push(width);
    width += term.width;
  }
  return {
    spec,
    terms,
    offsets,
    width,
    overlap: terms.reduce((sum, term) => sum + term.overlap, 1),
    covariates: [...new Set(spec.terms.flatMap(termCovariates))],
  };
}

/** Columns by name; NaN is a missing value. */
export type Covariates = Readonly<Record<string, ArrayLike<number>>>;

/** Rows of a design as fixed-length runs of (coefficient, value); unused places hold value 0. */
export interface SparseRows {
  readonly count: number;
  readonly overlap: number;
  readonly index: Int32Array;
  readonly value: Float64Array;
}

/** Throws RangeError when a covariate is missing or of another length. */
export function buildRows(design: Design, covariates: Covariates, count: number): SparseRows {
  for (const name of design.covariates) {
    const length = covariates[name]?.length;
    if (length !== count) {
      throw new RangeError(
        `model ${design.spec.name} needs covariate ${name} with ${count} values, received ${length ?? 'none'}`,
      );
    }
  }
  const { overlap } = design;
  const index = new Int32Array(count * overlap);
  const value = new Float64Array(count * overlap);
  const columns = design.terms.map((term) => term.covariates.map((name) => covariates[name]));
  const x = new Float64Array(8);
  for (let row = 0; row < count; row += 1) {
    let at = row * overlap;
    value[at] = 1;
    at += 1;
    for (let t = 0; t < design.terms.length; t += 1) {
      for (let m = 0; m < columns[t].length; m += 1) x[m] = columns[t][m][row];
      const written = design.terms[t].rowInto(x, index, value, at);
      for (let k = 0; k < written; k += 1) index[at + k] += design.offsets[t];
      at += written;
    }
  }
  return { count, overlap, index, value };
}

/** rows x coefficients, into `out` (length rows.count). */
export function multiplyInto(rows: SparseRows, coefficients: Float64Array, out: Float64Array): void {
  const { count, overlap, index, value } = rows;
  for (let row = 0; row < count; row += 1) {
    let sum = 0;
    const end = (row + 1) * overlap;
    for (let at = row * overlap; at < end; at += 1) sum += value[at] * coefficients[index[at]];
    out[row] = sum;
  }
}
