import type { CompiledTerm, SparseSymmetric } from './compile-term.ts';
import type { Design } from './design.ts';
import { allocateEntries, termEntriesInto } from './row-entries.ts';
import type { NormalEquations } from './row-sums.ts';
import type { DesignRows } from './term-rows.ts';

/**
 * Centring constraints absorbed into the normal equations. For each centred term a Householder reflection turns the
 * constraint "sum over the rows is zero" into "first coefficient is zero", and that coefficient is dropped (Wood,
 * Generalized Additive Models, 2017, 1.8.1). Rows stay sparse: only the small square matrices are reflected.
 */
export interface Constraints {
  /** Coefficients left after dropping one for each centred term. */
  readonly reducedWidth: number;
  /** First reduced coefficient of each term. */
  readonly reducedOffsets: readonly number[];
  /** Reduced coefficients of each term. */
  readonly reducedWidths: readonly number[];
  /** Reflection vector of each term, null for a term that is not centred. */
  readonly reflections: readonly (Float64Array | null)[];
  /** Coefficients of each term that no row touches. */
  readonly unsupported: readonly number[];
}

/** Constraints from the weighted column sums of the rows. */
export function centringConstraints(design: Design, rows: DesignRows, weight: Float64Array): Constraints {
  const sums = columnSums(design, rows, weight);
  const reducedOffsets: number[] = [];
  const reducedWidths: number[] = [];
  let reducedWidth = 1;
  for (const term of design.terms) {
    const width = term.centred ? term.width - 1 : term.width;
    reducedOffsets.push(reducedWidth);
    reducedWidths.push(width);
    reducedWidth += width;
  }
  const ownSums = design.terms.map((term, t) => sums.subarray(design.offsets[t], design.offsets[t] + term.width));
  return {
    reducedWidth,
    reducedOffsets,
    reducedWidths,
    reflections: design.terms.map((term, t) => (term.centred ? reflectionOf(ownSums[t]) : null)),
    unsupported: design.terms.map((term, t) =>
      term.term.kind === 'linear' ? 0 : ownSums[t].reduce((n, sum) => n + (sum === 0 ? 1 : 0), 0),
    ),
  };
}

function columnSums(design: Design, rows: DesignRows, weight: Float64Array): Float64Array {
  const sums = new Float64Array(design.width);
  design.terms.forEach((term, t) => {
    const entries = allocateEntries(term.overlap);
    for (let row = 0; row < rows.count; row += 1) {
      const n = termEntriesInto(rows.terms[t], row, 0, design.offsets[t], entries, 0);
      for (let k = 0; k < n; k += 1) sums[entries.index[k]] += weight[row] * entries.value[k];
    }
  });
  return sums;
}

/** Vector u, scaled so that I - u u' maps `sums` onto the first axis. */
function reflectionOf(sums: Float64Array): Float64Array {
  const u = Float64Array.from(sums);
  const norm = Math.hypot(...u);
  if (norm === 0) {
    // A term without a single row: any constraint will do, the penalty decides the rest.
    u.fill(1);
    return reflectionOf(u);
  }
  u[0] += u[0] >= 0 ? norm : -norm;
  const scale = Math.SQRT2 / Math.hypot(...u);
  for (let i = 0; i < u.length; i += 1) u[i] *= scale;
  return u;
}

/** (I - u u') of the part of `vector` that starts at `start`. */
export function reflectInPlace(vector: Float64Array, start: number, u: Float64Array): void {
  let dot = 0;
  for (let i = 0; i < u.length; i += 1) dot += u[i] * vector[start + i];
  if (dot === 0) return;
  for (let i = 0; i < u.length; i += 1) vector[start + i] -= dot * u[i];
}

/** Reflects the rows `start ..` of a matrix with `n` columns; row by row, so that memory is read in order. */
export function reflectRowsInPlace(a: Float64Array, n: number, start: number, u: Float64Array): void {
  const dot = new Float64Array(n);
  for (let i = 0; i < u.length; i += 1) {
    const row = (start + i) * n;
    for (let k = 0; k < n; k += 1) dot[k] += u[i] * a[row + k];
  }
  for (let i = 0; i < u.length; i += 1) {
    const row = (start + i) * n;
    for (let k = 0; k < n; k += 1) a[row + k] -= u[i] * dot[k];
  }
}

/** Z'AZ and Z'b; both arguments are overwritten on the way. */
export function reduceEquations(design: Design, constraints: Constraints, full: NormalEquations): NormalEquations {
  return {
    information: reduceMatrix(design, constraints, full.information),
    right: reduceVector(design, constraints, full.right),
  };
}

/** Z'AZ of a full symmetric matrix (design.width square); `a` is overwritten on the way. */
export function reduceMatrix(design: Design, constraints: Constraints, a: Float64Array): Float64Array {
  const n = design.width;
  design.terms.forEach((_, t) => {
    const u = constraints.reflections[t];
    if (u === null) return;
    for (let row = 0; row < n; row += 1) reflectInPlace(a, row * n + design.offsets[t], u);
    reflectRowsInPlace(a, n, design.offsets[t], u);
  });
  const parts = keptParts(design, constraints);
  const m = constraints.reducedWidth;
  const reduced = new Float64Array(m * m);
  for (const rows of parts)
    for (const columns of parts)
      for (let i = 0; i < rows.width; i += 1) {
        const from = (rows.full + i) * n + columns.full;
        reduced.set(a.subarray(from, from + columns.width), (rows.reduced + i) * m + columns.reduced);
      }
  return reduced;
}

/** Z'b of a full vector; `b` is overwritten on the way. */
export function reduceVector(design: Design, constraints: Constraints, b: Float64Array): Float64Array {
  reflectAll(design, constraints, b);
  const out = new Float64Array(constraints.reducedWidth);
  for (const { full, reduced, width } of keptParts(design, constraints))
    out.set(b.subarray(full, full + width), reduced);
  return out;
}

/** Z gamma: full coefficients from reduced ones. */
export function expandVector(design: Design, constraints: Constraints, reduced: Float64Array): Float64Array {
  const out = new Float64Array(design.width);
  for (const { full, reduced: from, width } of keptParts(design, constraints))
    out.set(reduced.subarray(from, from + width), full);
  reflectAll(design, constraints, out);
  return out;
}

/** Z V Z': the covariance of the full coefficients from that of the reduced ones (both full square matrices). */
export function expandMatrix(design: Design, constraints: Constraints, reduced: Float64Array): Float64Array {
  const n = design.width;
  const parts = keptParts(design, constraints);
  const m = constraints.reducedWidth;
  const full = new Float64Array(n * n);
  for (const rows of parts)
    for (const columns of parts)
      for (let i = 0; i < rows.width; i += 1) {
        const from = (rows.reduced + i) * m + columns.reduced;
        full.set(reduced.subarray(from, from + columns.width), (rows.full + i) * n + columns.full);
      }
  design.terms.forEach((_, t) => {
    const u = constraints.reflections[t];
    if (u === null) return;
    for (let row = 0; row < n; row += 1) reflectInPlace(full, row * n + design.offsets[t], u);
    reflectRowsInPlace(full, n, design.offsets[t], u);
  });
  // Rounding leaves the two triangles some last bits apart.
  for (let i = 0; i < n; i += 1) for (let j = 0; j < i; j += 1) full[j * n + i] = full[i * n + j];
  return full;
}

/**
 * Multiplies a term's penalty in reduced coefficients with the part of `vector` that starts at `start`, into `out` from
 * `outStart` on. `scratch` holds two vectors of the term's full width.
 */
export function multiplyReducedInto(
  penalty: SparseSymmetric,
  reflection: Float64Array | null,
  vector: Float64Array,
  start: number,
  scratch: readonly [Float64Array, Float64Array],
  out: Float64Array,
  outStart: number,
): void {
  const [full, product] = scratch;
  const { width, start: first, column, value } = penalty;
  const dropped = reflection === null ? 0 : 1;
  full[0] = 0;
  for (let i = dropped; i < width; i += 1) full[i] = vector[start + i - dropped];
  if (reflection !== null) reflectInPlace(full, 0, reflection);
  for (let i = 0; i < width; i += 1) {
    let sum = 0;
    for (let at = first[i]; at < first[i + 1]; at += 1) sum += value[at] * full[column[at]];
    product[i] = sum;
  }
  if (reflection !== null) reflectInPlace(product, 0, reflection);
  for (let i = dropped; i < width; i += 1) out[outStart + i - dropped] = product[i];
}

/** The functional `entries` on a term's full coefficients, as one on its reduced coefficients. */
export function reduceFunctional(
  term: CompiledTerm,
  reflection: Float64Array | null,
  entries: readonly (readonly [index: number, value: number])[],
): Float64Array {
  const full = new Float64Array(term.width);
  for (const [index, value] of entries) full[index] += value;
  if (reflection === null) return full;
  reflectInPlace(full, 0, reflection);
  return full.slice(1);
}

function reflectAll(design: Design, constraints: Constraints, vector: Float64Array): void {
  design.terms.forEach((_, t) => {
    const u = constraints.reflections[t];
    if (u !== null) reflectInPlace(vector, design.offsets[t], u);
  });
}

/** Runs of coefficients that are kept, first the intercept: where they begin among the full and the reduced ones. */
function keptParts(
  design: Design,
  { reflections, reducedOffsets, reducedWidths }: Constraints,
): { readonly full: number; readonly reduced: number; readonly width: number }[] {
  const terms = design.offsets.map((offset, t) => ({
    full: reflections[t] === null ? offset : offset + 1,
    reduced: reducedOffsets[t],
    width: reducedWidths[t],
  }));
  return [{ full: 0, reduced: 0, width: 1 }, ...terms];
}
