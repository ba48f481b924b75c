import { BASIS_OVERLAP } from '../splines/uniform-basis.ts';
import type { MarginRows } from './term-rows.ts';

/**
 * Along one margin the product of functions i and j is zero beyond |i - j| = 3, and on a row the product of two functions of
 * a tensor is the product of such pairs over its margins, each symmetric in its own i and j. So the sums of a term with
 * itself are sums over pairs i <= j <= i + 3 of every margin: 4 size of them a margin in place of size^2.
 */
export interface PairMargin {
  readonly size: number;
  /** For each bin the places of its ten pairs: i * 4 + (j - i). */
  readonly at: Int32Array;
  /** And their products. */
  readonly value: Float64Array;
}

/** Pairs i <= j among the functions that a bin touches. */
export const PAIRS_TOUCHED = (BASIS_OVERLAP * (BASIS_OVERLAP + 1)) / 2;

export function pairMargin({ basis, bins, first, values }: MarginRows): PairMargin {
  const { size } = basis;
  const at = new Int32Array(bins * PAIRS_TOUCHED);
  const value = new Float64Array(bins * PAIRS_TOUCHED);
  let next = 0;
  for (let bin = 0; bin < bins; bin += 1) {
    const from = bin * BASIS_OVERLAP;
    for (let a = 0; a < BASIS_OVERLAP; a += 1) {
      const i = (first[bin] + a) % size;
      for (let b = a; b < BASIS_OVERLAP; b += 1) {
        at[next] = i * BASIS_OVERLAP + b - a;
        value[next] = values[from + a] * values[from + b];
        next += 1;
      }
    }
  }
  return { size, at, value };
}

/** Numbers that the pairs of some margins take together. */
export function pairCount(margins: readonly PairMargin[]): number {
  return margins.reduce((product, { size }) => product * size * BASIS_OVERLAP, 1);
}

/**
 * Adds weight times the pairs of one row, over the margins from `from` on, to `sums` (pairCount of those margins long, last
 * margin fastest). `bins` holds each margin's bin of every row.
 */
export function addRowPairs(
  margins: readonly PairMargin[],
  bins: readonly Int32Array[],
  from: number,
  row: number,
  weight: number,
  sums: Float64Array,
  base: number,
): void {
  if (from === margins.length) {
    sums[base] += weight;
    return;
  }
  const { at, value } = margins[from];
  const start = bins[from][row] * PAIRS_TOUCHED;
  if (from === margins.length - 1) {
    for (let k = start; k < start + PAIRS_TOUCHED; k += 1) sums[base + at[k]] += weight * value[k];
    return;
  }
  const next = margins[from + 1].size * BASIS_OVERLAP;
  if (from === margins.length - 2) {
    const last = margins[from + 1];
    const lastStart = bins[from + 1][row] * PAIRS_TOUCHED;
    for (let k = start; k < start + PAIRS_TOUCHED; k += 1) {
      const factor = weight * value[k];
      const place = (base + at[k]) * next;
      for (let q = lastStart; q < lastStart + PAIRS_TOUCHED; q += 1) sums[place + last.at[q]] += factor * last.value[q];
    }
    return;
  }
  for (let k = start; k < start + PAIRS_TOUCHED; k += 1)
    addRowPairs(margins, bins, from + 1, row, weight * value[k], sums, (base + at[k]) * next);
}

/** Adds `sums` as a full symmetric matrix to the block of `matrix` (n columns) that starts at `start` on the diagonal. */
export function addPairsToMatrix(
  margins: readonly PairMargin[],
  sums: Float64Array,
  matrix: Float64Array,
  n: number,
  start: number,
): void {
  const spread = (m: number, place: number, row: number, column: number): void => {
    if (m === margins.length) {
      matrix[(start + row) * n + start + column] += sums[place];
      return;
    }
    const { size } = margins[m];
    for (let i = 0; i < size; i += 1)
      for (let apart = 0; apart < BASIS_OVERLAP; apart += 1) {
        const j = (i + apart) % size;
        const next = (place * size + i) * BASIS_OVERLAP + apart;
        spread(m + 1, next, row * size + i, column * size + j);
        if (apart > 0) spread(m + 1, next, row * size + j, column * size + i);
      }
  };
  spread(0, 0, 0, 0);
}

/** Adds the row sums of that matrix to every `stride`-th number of `out` from `start` on. */
export function addPairSums(
  margins: readonly PairMargin[],
  sums: Float64Array,
  out: Float64Array,
  start: number,
  stride: number,
): void {
  const spread = (m: number, place: number, row: number): void => {
    if (m === margins.length) {
      out[start + row * stride] += sums[place];
      return;
    }
    const { size } = margins[m];
    for (let i = 0; i < size; i += 1)
      for (let apart = 0; apart < BASIS_OVERLAP; apart += 1) {
        const next = (place * size + i) * BASIS_OVERLAP + apart;
        spread(m + 1, next, row * size + i);
        if (apart > 0) spread(m + 1, next, row * size + ((i + apart) % size));
      }
  };
  spread(0, 0, 0);
}
