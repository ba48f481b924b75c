import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { differencePenalty } from '../splines/difference-penalty.ts';
import { BASIS_OVERLAP, basisRowInto, type UniformBasis, uniformBasis } from '../splines/uniform-basis.ts';
import { type CompiledTerm, type Margin, type Term, termCovariates } from './terms.ts';

const DEFAULT_PENALTY_ORDER = 2;

/** Makes a term ready for arithmetic. Throws RangeError for impossible settings. */
export function compileTerm(term: Term): CompiledTerm {
  switch (term.kind) {
    case 'linear':
      return {
        ...unpenalised(term, 1),
        rowInto: (x, index, value, at) => linearRow(x[0] - term.centre, index, value, at),
      };
    case 'factor':
      return {
        ...unpenalised(term, term.levels - 1),
        rowInto: (x, index, value, at) => levelRow(x[0] - 1, index, value, at),
      };
    case 'random':
      return compileRandom(term);
    case 'smooth':
      return compileProduct(term, [term.margin]);
    case 'tensor':
      return compileProduct(term, term.margins);
  }
}

function unpenalised(term: Term, width: number): Omit<CompiledTerm, 'rowInto'> {
  return {
    term,
    covariates: termCovariates(term),
    width,
    overlap: 1,
    centred: false,
    penalties: [],
    bases: [],
    pseudoTraces: () => [],
  };
}

function linearRow(x: number, index: Int32Array, value: Float64Array, at: number): number {
  if (Number.isNaN(x)) return 0;
  index[at] = 0;
  value[at] = x;
  return 1;
}

/** Level numbers below zero (the baseline of a factor) and missing ones touch no coefficient. */
function levelRow(level: number, index: Int32Array, value: Float64Array, at: number): number {
  if (!(level >= 0)) return 0;
  index[at] = level;
  value[at] = 1;
  return 1;
}

function compileRandom(term: Extract<Term, { kind: 'random' }>): CompiledTerm {
  const identity = new Float64Array(term.levels * term.levels);
  for (let i = 0; i < term.levels; i += 1) identity[i * term.levels + i] = 1;
  return {
    ...unpenalised(term, term.levels),
    penalties: [identity],
    pseudoTraces: (lambdas) => [term.levels / lambdas[0]],
    rowInto: (x, index, value, at) => levelRow(x[0], index, value, at),
  };
}

function compileProduct(term: Term, margins: readonly Margin[]): CompiledTerm {
  const bases = margins.map((margin) => uniformBasis(margin.lo, margin.hi, margin.segments));
  const small = margins.map((margin, m) =>
    differencePenalty(bases[m].size, margin.penaltyOrder ?? DEFAULT_PENALTY_ORDER),
  );
  const width = bases.reduce((product, basis) => product * basis.size, 1);
  const sizes = bases.map((basis) => basis.size);
  const spectra = small.map((penalty, m) =>
    eigenvaluesOf(penalty, sizes[m], margins[m].penaltyOrder ?? DEFAULT_PENALTY_ORDER),
  );
  return {
    term,
    covariates: termCovariates(term),
    width,
    overlap: BASIS_OVERLAP ** bases.length,
    centred: true,
    bases,
    penalties: small.map((penalty, m) => spreadPenalty(penalty, sizes, m)),
    pseudoTraces: (lambdas) => productTraces(spectra, lambdas),
    rowInto: bases.length === 1 ? smoothRow(bases[0]) : productRow(bases),
  };
}

/** Eigenvalues of a difference penalty; the `nullity` smallest are zero by construction and set so. */
function eigenvaluesOf(penalty: Float64Array, size: number, nullity: number): number[] {
  const matrix = Matrix.from1DArray(size, size, penalty);
  const values = new EigenvalueDecomposition(matrix, { assumeSymmetric: true }).realEigenvalues.sort((a, b) => a - b);
  return values.map((value, k) => (k < nullity ? 0 : value));
}

/** I x ... x penalty x ... x I: a margin's penalty on the coefficients of the whole product, last margin fastest. */
function spreadPenalty(penalty: Float64Array, sizes: readonly number[], margin: number): Float64Array {
  const width = sizes.reduce((product, size) => product * size, 1);
  const inner = sizes.slice(margin + 1).reduce((product, size) => product * size, 1);
  const size = sizes[margin];
  const spread = new Float64Array(width * width);
  for (let i = 0; i < width; i += 1) {
    const k = Math.floor(i / inner) % size;
    const base = i - k * inner;
    for (let other = 0; other < size; other += 1) spread[i * width + base + other * inner] = penalty[k * size + other];
  }
  return spread;
}

/** The margins' penalties share their eigenvectors, so the traces are sums over products of eigenvalues. */
function productTraces(spectra: readonly number[][], lambdas: ArrayLike<number>): number[] {
  const traces = new Array<number>(spectra.length).fill(0);
  const at = new Array<number>(spectra.length).fill(0);
  for (;;) {
    let total = 0;
    for (let m = 0; m < spectra.length; m += 1) total += lambdas[m] * spectra[m][at[m]];
    if (total > 0) for (let m = 0; m < spectra.length; m += 1) traces[m] += spectra[m][at[m]] / total;
    let m = spectra.length - 1;
    while (m >= 0 && ++at[m] === spectra[m].length) at[m--] = 0;
    if (m < 0) return traces;
  }
}

function smoothRow(basis: UniformBasis): CompiledTerm['rowInto'] {
  return (x, index, value, at) => {
    if (Number.isNaN(x[0])) return 0;
    const first = basisRowInto(basis, x[0], value, at);
    for (let k = 0; k < BASIS_OVERLAP; k += 1) index[at + k] = first + k;
    return BASIS_OVERLAP;
  };
}

function productRow(bases: readonly UniformBasis[]): CompiledTerm['rowInto'] {
  const rows = bases.map(() => new Float64Array(BASIS_OVERLAP));
  const firsts = new Int32Array(bases.length);
  return (x, index, value, at) => {
    for (let m = 0; m < bases.length; m += 1) {
      if (Number.isNaN(x[m])) return 0;
      firsts[m] = basisRowInto(bases[m], x[m], rows[m], 0);
    }
    index[at] = 0;
    value[at] = 1;
    let written = 1;
    for (let m = 0; m < bases.length; m += 1) {
      // Backwards, so that each entry is spread into four before it is overwritten.
      for (let entry = written - 1; entry >= 0; entry -= 1) {
        const base = index[at + entry] * bases[m].size + firsts[m];
        const factor = value[at + entry];
        for (let k = BASIS_OVERLAP - 1; k >= 0; k -= 1) {
          index[at + entry * BASIS_OVERLAP + k] = base + k;
          value[at + entry * BASIS_OVERLAP + k] = factor * rows[m][k];
        }
      }
      written *= BASIS_OVERLAP;
    }
    return written;
  };
}
