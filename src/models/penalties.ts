import type { SparseSymmetric } from './compile-term.ts';
import { type Constraints, multiplyReducedInto } from './constraints.ts';
import type { Design } from './design.ts';

/** One smoothing parameter's penalty: which reduced coefficients it holds, and its matrix on them. */
export interface PenaltyBlock {
  readonly start: number;
  readonly width: number;
  readonly sparse: SparseSymmetric;
  readonly reflection: Float64Array | null;
  /** The same matrix, full, width x width. */
  readonly dense: Float64Array;
}

/** The penalties of one term, which share eigenvectors. */
export interface PenaltyGroup {
  readonly term: number;
  readonly start: number;
  readonly width: number;
  /** Its penalties are blocks first .. first + count - 1. */
  readonly first: number;
  readonly count: number;
  readonly spectra: readonly (readonly number[])[];
}

/** All penalties of a fit, in reduced coefficients. `copies` of a design stand side by side in a multinomial fit. */
export interface Penalties {
  readonly blocks: readonly PenaltyBlock[];
  readonly groups: readonly PenaltyGroup[];
  /** Precision of the weak prior around zero, on all coefficients but the intercepts. */
  readonly ridge: number;
  readonly intercepts: readonly number[];
}

export function penaltiesOf(design: Design, constraints: Constraints, ridge: number, copies = 1): Penalties {
  const blocks: PenaltyBlock[] = [];
  const groups: PenaltyGroup[] = [];
  const intercepts: number[] = [];
  for (let copy = 0; copy < copies; copy += 1) {
    const shift = copy * constraints.reducedWidth;
    intercepts.push(shift);
    design.terms.forEach((term, t) => {
      if (term.penalties.length === 0) return;
      const start = shift + constraints.reducedOffsets[t];
      const width = constraints.reducedWidths[t];
      const reflection = constraints.reflections[t];
      groups.push({ term: t, start, width, first: blocks.length, count: term.penalties.length, spectra: term.spectra });
      for (const sparse of term.penalties)
        blocks.push({ start, width, sparse, reflection, dense: densePenalty(sparse, reflection, width) });
    });
  }
  return { blocks, groups, ridge, intercepts };
}

/** Z'SZ with Z the reflection I - uu' less its first column: S - uq' - qu' + (u'q) uu', where q = Su. */
function densePenalty(
  { start, column, value, width: full }: SparseSymmetric,
  reflection: Float64Array | null,
  width: number,
): Float64Array {
  const dense = new Float64Array(width * width);
  const dropped = full - width;
  for (let i = dropped; i < full; i += 1)
    for (let at = start[i]; at < start[i + 1]; at += 1)
      if (column[at] >= dropped) dense[(i - dropped) * width + column[at] - dropped] = value[at];
  if (reflection === null) return dense;
  const q = new Float64Array(full);
  for (let i = 0; i < full; i += 1)
    for (let at = start[i]; at < start[i + 1]; at += 1) q[i] += value[at] * reflection[column[at]];
  const both = dotProduct(reflection, q);
  for (let i = 0; i < width; i += 1) {
    const u = reflection[i + dropped];
    const p = q[i + dropped] - both * u;
    for (let k = 0; k < width; k += 1) dense[i * width + k] -= u * q[k + dropped] + p * reflection[k + dropped];
  }
  return dense;
}

export function penaltyScratch(sparse: SparseSymmetric): [Float64Array, Float64Array] {
  return [new Float64Array(sparse.width), new Float64Array(sparse.width)];
}

/** Adds the ridge and lambda_j S_j to a full n x n matrix. */
export function addPenalties(penalties: Penalties, lambdas: ArrayLike<number>, matrix: Float64Array, n: number): void {
  const { blocks, ridge, intercepts } = penalties;
  for (let i = 0; i < n; i += 1) matrix[i * n + i] += ridge;
  for (const i of intercepts) matrix[i * n + i] -= ridge;
  blocks.forEach(({ start, width, dense }, j) => {
    for (let i = 0; i < width; i += 1) {
      const row = (start + i) * n + start;
      for (let k = 0; k < width; k += 1) matrix[row + k] += lambdas[j] * dense[i * width + k];
    }
  });
}

/** S_j beta as a vector over all reduced coefficients. */
export function penaltyTimes({ start, sparse, reflection }: PenaltyBlock, reduced: Float64Array): Float64Array {
  const out = new Float64Array(reduced.length);
  multiplyReducedInto(sparse, reflection, reduced, start, penaltyScratch(sparse), out, start);
  return out;
}

/** beta' S beta with all smoothing parameters and the ridge. */
export function roughnessOf(penalties: Penalties, lambdas: ArrayLike<number>, reduced: Float64Array): number {
  let total = penalties.ridge * dotProduct(reduced, reduced);
  for (const i of penalties.intercepts) total -= penalties.ridge * reduced[i] * reduced[i];
  penalties.blocks.forEach((block, j) => {
    total += lambdas[j] * dotProduct(penaltyTimes(block, reduced), reduced);
  });
  return total;
}

export function dotProduct(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += a[i] * b[i];
  return sum;
}

/** What the prior S = sum of lambda_j S_j (plus the ridge) of one term says about its smoothing parameters. */
export interface PriorSums {
  /** Logarithm of the product of the eigenvalues of S that a penalty reaches. */
  readonly logDeterminant: number;
  /** Number of those eigenvalues. */
  readonly rank: number;
  /** tr(S^- S_j). */
  readonly traces: readonly number[];
  /** tr(S^- S_j S^- S_k), row by row. */
  readonly crossTraces: readonly number[];
}

/** The margins' penalties share their eigenvectors, so everything is a sum over products of eigenvalues. */
export function priorSums(
  spectra: readonly (readonly number[])[],
  lambdas: ArrayLike<number>,
  ridge: number,
): PriorSums {
  const margins = spectra.length;
  const traces = new Array<number>(margins).fill(0);
  const crossTraces = new Array<number>(margins * margins).fill(0);
  const at = new Array<number>(margins).fill(0);
  let logDeterminant = 0;
  let rank = 0;
  for (;;) {
    let total = 0;
    for (let m = 0; m < margins; m += 1) total += lambdas[m] * spectra[m][at[m]];
    if (total > 0) {
      total += ridge;
      logDeterminant += Math.log(total);
      rank += 1;
      for (let m = 0; m < margins; m += 1) {
        const own = spectra[m][at[m]] / total;
        traces[m] += own;
        for (let k = 0; k < margins; k += 1) crossTraces[m * margins + k] += (own * spectra[k][at[k]]) / total;
      }
    }
    let m = margins - 1;
    while (m >= 0 && ++at[m] === spectra[m].length) at[m--] = 0;
    if (m < 0) return { logDeterminant, rank, traces, crossTraces };
  }
}
