import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { differencePenalty } from '../splines/difference-penalty.ts';
import { BASIS_OVERLAP, type UniformBasis, uniformBasis } from '../splines/uniform-basis.ts';
import { type Margin, type Term, termCovariates, termMargins } from './terms.ts';

/** A symmetric matrix with few entries a row: entries of row i are `column[start[i] .. start[i + 1] - 1]`. */
export interface SparseSymmetric {
  readonly width: number;
  readonly start: Int32Array;
  readonly column: Int32Array;
  readonly value: Float64Array;
}

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
  /** Bases of the margins; empty for terms whose rows hold one entry. */
  readonly bases: readonly UniformBasis[];
  /** Quadratic penalties on the coefficients, one a margin (or one for a random intercept). */
  readonly penalties: readonly SparseSymmetric[];
  /**
   * Eigenvalues of each margin's penalty. The penalties of a term share their eigenvectors, so every determinant and
   * trace that smoothing needs is a sum over products of these.
   */
  readonly spectra: readonly (readonly number[])[];
}

const DEFAULT_PENALTY_ORDER = 2;
const MOST_MARGINS = 3;

/** Makes a term ready for arithmetic. Throws RangeError for impossible settings. */
export function compileTerm(term: Term): CompiledTerm {
  switch (term.kind) {
    case 'linear':
      return single(term, 1);
    case 'factor':
      return single(term, term.levels - 1);
    case 'random':
      return {
        ...single(term, term.levels),
        penalties: [sparse(term.levels, (i) => [[i, 1]])],
        spectra: [new Array<number>(term.levels).fill(1)],
      };
    case 'smooth':
    case 'tensor':
      return compileProduct(term, termMargins(term));
  }
}

function single(term: Term, width: number): CompiledTerm {
  return {
    term,
    covariates: termCovariates(term),
    width,
    overlap: 1,
    centred: false,
    penalties: [],
    bases: [],
    spectra: [],
  };
}

function compileProduct(term: Term, margins: readonly Margin[]): CompiledTerm {
  if (margins.length < 1 || margins.length > MOST_MARGINS)
    throw new RangeError(`a tensor needs 1 to ${MOST_MARGINS} margins, received ${margins.length}`);
  for (const { covariate, cyclic, monotone } of margins)
    if (cyclic === true && monotone !== undefined)
      throw new RangeError(`a margin is cyclic or monotone, not both: ${covariate}`);
  const bases = margins.map(({ lo, hi, segments, cyclic }) => uniformBasis(lo, hi, segments, cyclic));
  const sizes = bases.map((basis) => basis.size);
  const orders = margins.map((margin) => margin.penaltyOrder ?? DEFAULT_PENALTY_ORDER);
  const small = bases.map((basis, m) => differencePenalty(basis.size, orders[m], basis.cyclic));
  const width = sizes.reduce((product, size) => product * size, 1);
  return {
    term,
    covariates: termCovariates(term),
    width,
    overlap: BASIS_OVERLAP ** bases.length,
    centred: true,
    bases,
    penalties: small.map((penalty, m) => spreadPenalty(penalty, sizes, m)),
    spectra: small.map((penalty, m) => eigenvaluesOf(penalty, sizes[m], bases[m].cyclic ? 1 : orders[m])),
  };
}

/** Eigenvalues of a difference penalty; the `nullity` smallest are zero by construction and set so. */
function eigenvaluesOf(penalty: Float64Array, size: number, nullity: number): number[] {
  const matrix = Matrix.from1DArray(size, size, penalty);
  const values = new EigenvalueDecomposition(matrix, { assumeSymmetric: true }).realEigenvalues.sort((a, b) => a - b);
  return values.map((value, k) => (k < nullity ? 0 : value));
}

/** I x ... x penalty x ... x I: a margin's penalty on the coefficients of the whole product, last margin fastest. */
function spreadPenalty(penalty: Float64Array, sizes: readonly number[], margin: number): SparseSymmetric {
  const width = sizes.reduce((product, size) => product * size, 1);
  const inner = sizes.slice(margin + 1).reduce((product, size) => product * size, 1);
  const size = sizes[margin];
  return sparse(width, (i) => {
    const k = Math.floor(i / inner) % size;
    const base = i - k * inner;
    const entries: [number, number][] = [];
    for (let other = 0; other < size; other += 1) {
      const value = penalty[k * size + other];
      if (value !== 0) entries.push([base + other * inner, value]);
    }
    return entries;
  });
}

function sparse(width: number, row: (i: number) => readonly [column: number, value: number][]): SparseSymmetric {
  const start = new Int32Array(width + 1);
  const column: number[] = [];
  const value: number[] = [];
  for (let i = 0; i < width; i += 1) {
    for (const [c, v] of row(i)) {
      column.push(c);
      value.push(v);
    }
    start[i + 1] = column.length;
  }
  return { width, start, column: Int32Array.from(column), value: Float64Array.from(value) };
}
