import { BASIS_OVERLAP, basisRowInto } from '../splines/uniform-basis.ts';
import type { CompiledTerm } from './compile-term.ts';
import { type Covariates, checkCovariates, type Design } from './design.ts';
import { allocateEntries, termEntriesInto } from './row-entries.ts';
import type { DesignRows, MarginRows, TermRows } from './term-rows.ts';

/** Linear predictor of rows that were looked up before, into `out` (length rows.count). */
export function linearOfRowsInto(
  design: Design,
  rows: DesignRows,
  coefficients: Float64Array,
  out: Float64Array,
): void {
  out.fill(coefficients[0]);
  design.terms.forEach((term, t) => {
    const own = coefficients.subarray(design.offsets[t], design.offsets[t] + term.width);
    const plain = term.bases.every((basis) => !basis.cyclic);
    if (term.bases.length === 2 && plain) addSurface(rows.terms[t].margins, own, out, 0, out.length);
    else if (term.bases.length === 3 && plain) addVolume(rows.terms[t], own, out);
    else addEntries(term, rows.terms[t], own, out);
  });
}

/** Below this many rows to a run of equal bins a curve of their own is not worth its making. */
const LONG_RUN = 8;

/** Adds a tensor of two margins to the rows from `from` to before `to`; neighbours in one bin of the first share a curve. */
function addSurface(
  [a, b]: readonly MarginRows[],
  own: Float64Array,
  out: Float64Array,
  from: number,
  to: number,
): void {
  const width = b.basis.size;
  const va = a.values;
  const vb = b.values;
  const curve = new Float64Array(width);
  for (let start = from, end = from; start < to; start = end) {
    const i = a.bin[start];
    for (end = start + 1; end < to && a.bin[end] === i; end += 1);
    if (i < 0) continue;
    const x = i * BASIS_OVERLAP;
    const first = a.first[i] * width;
    if (end - start < LONG_RUN) {
      for (let row = start; row < end; row += 1) {
        const j = b.bin[row];
        const y = j * BASIS_OVERLAP;
        let at = first + b.first[j];
        let sum = 0;
        for (let k = x; k < x + BASIS_OVERLAP; k += 1) {
          sum +=
            va[k] * (vb[y] * own[at] + vb[y + 1] * own[at + 1] + vb[y + 2] * own[at + 2] + vb[y + 3] * own[at + 3]);
          at += width;
        }
        out[row] += sum;
      }
      continue;
    }
    for (let k = 0; k < width; k += 1)
      curve[k] =
        va[x] * own[first + k] +
        va[x + 1] * own[first + width + k] +
        va[x + 2] * own[first + 2 * width + k] +
        va[x + 3] * own[first + 3 * width + k];
    for (let row = start; row < end; row += 1) {
      const j = b.bin[row];
      const y = j * BASIS_OVERLAP;
      const at = b.first[j];
      out[row] += vb[y] * curve[at] + vb[y + 1] * curve[at + 1] + vb[y + 2] * curve[at + 2] + vb[y + 3] * curve[at + 3];
    }
  }
}

/** Rows of one bin of the first margin share a surface over the other two. */
function addVolume({ margins }: TermRows, own: Float64Array, out: Float64Array): void {
  const [a, b, c] = margins;
  const width = b.basis.size * c.basis.size;
  const surface = new Float64Array(width);
  for (let from = 0, to = 0; from < out.length; from = to) {
    const bin = a.bin[from];
    for (to = from + 1; to < out.length && a.bin[to] === bin; to += 1);
    if (bin < 0) continue;
    surface.fill(0);
    for (let k = 0; k < BASIS_OVERLAP; k += 1) {
      const factor = a.values[bin * BASIS_OVERLAP + k];
      const at = (a.first[bin] + k) * width;
      for (let i = 0; i < width; i += 1) surface[i] += factor * own[at + i];
    }
    addSurface([b, c], surface, out, from, to);
  }
}

function addEntries(term: CompiledTerm, rows: TermRows, own: Float64Array, out: Float64Array): void {
  const entries = allocateEntries(term.overlap);
  for (let row = 0; row < out.length; row += 1) {
    const n = termEntriesInto(rows, row, 0, 0, entries, 0);
    let sum = 0;
    for (let k = 0; k < n; k += 1) sum += entries.value[k] * own[entries.index[k]];
    out[row] += sum;
  }
}

/**
 * Linear predictor straight from the covariates, into `out` (length count); nothing is stored a row, so a million rows are
 * as good as one. Throws RangeError when a covariate is missing or of another length.
 */
export function linearPredictorInto(
  design: Design,
  coefficients: Float64Array,
  covariates: Covariates,
  count: number,
  out: Float64Array,
): void {
  checkCovariates(design, covariates, count);
  out.fill(coefficients[0], 0, count);
  design.terms.forEach((term, t) => {
    const own = coefficients.subarray(design.offsets[t], design.offsets[t] + term.width);
    const columns = term.covariates.map((name) => covariates[name]);
    if (term.bases.length === 0) addLevels(term, own, columns[0], count, out);
    else addProduct(term, own, columns, count, out);
  });
}

function addLevels(
  { term, width }: CompiledTerm,
  own: Float64Array,
  column: ArrayLike<number>,
  count: number,
  out: Float64Array,
): void {
  for (let row = 0; row < count; row += 1) {
    const x = column[row];
    if (term.kind === 'linear') {
      if (!Number.isNaN(x)) out[row] += own[0] * (x - term.centre);
      continue;
    }
    const level = term.kind === 'factor' ? x - 1 : x;
    // A level that the fit has not seen gets the baseline.
    if (level >= 0 && level < width) out[row] += own[level];
  }
}

function addProduct(
  { term, bases }: CompiledTerm,
  own: Float64Array,
  columns: readonly ArrayLike<number>[],
  count: number,
  out: Float64Array,
): void {
  const by = 'by' in term ? term.by : undefined;
  const level = by === undefined ? undefined : columns[columns.length - 1];
  const plain = bases.length === 2 && bases.every((basis) => !basis.cyclic);
  const values = new Float64Array(BASIS_OVERLAP * bases.length);
  const firsts = new Int32Array(bases.length);
  for (let row = 0; row < count; row += 1) {
    if (level !== undefined && level[row] !== by?.level) continue;
    let missing = false;
    for (let m = 0; m < bases.length; m += 1) {
      const x = columns[m][row];
      if (Number.isNaN(x)) missing = true;
      else firsts[m] = basisRowInto(bases[m], x, values, m * BASIS_OVERLAP);
    }
    if (missing) continue;
    out[row] += plain
      ? sumSurface(values, own, firsts[0] * bases[1].size + firsts[1], bases[1].size)
      : sumProduct(bases, firsts, values, own, 0, 0);
  }
}

/** Sum over the sixteen functions of two margins, of which the first has coefficient `at`. */
function sumSurface(values: Float64Array, own: Float64Array, at: number, width: number): number {
  const v0 = values[4];
  const v1 = values[5];
  const v2 = values[6];
  const v3 = values[7];
  let sum = 0;
  let from = at;
  for (let k = 0; k < BASIS_OVERLAP; k += 1) {
    sum += values[k] * (v0 * own[from] + v1 * own[from + 1] + v2 * own[from + 2] + v3 * own[from + 3]);
    from += width;
  }
  return sum;
}

function sumProduct(
  bases: CompiledTerm['bases'],
  firsts: Int32Array,
  values: Float64Array,
  own: Float64Array,
  m: number,
  base: number,
): number {
  const { size } = bases[m];
  let sum = 0;
  for (let k = 0; k < BASIS_OVERLAP; k += 1) {
    const function_ = firsts[m] + k;
    const at = base * size + (function_ >= size ? function_ - size : function_);
    const factor = values[m * BASIS_OVERLAP + k];
    sum += factor * (m === bases.length - 1 ? own[at] : sumProduct(bases, firsts, values, own, m + 1, at));
  }
  return sum;
}
