import type { Design, SparseRows } from './design.ts';
import type { CompiledTerm } from './terms.ts';

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
  /** Reflection vector of each term, null for a term that is not centred. */
  readonly reflections: readonly (Float64Array | null)[];
}

/** Constraints from the weighted column sums of the rows. */
export function centringConstraints(
  design: Design,
  rows: SparseRows,
  weight: ArrayLike<number> | undefined,
): Constraints {
  const sums = new Float64Array(design.width);
  for (let row = 0; row < rows.count; row += 1) {
    const w = weight === undefined ? 1 : weight[row];
    const end = (row + 1) * rows.overlap;
    for (let at = row * rows.overlap; at < end; at += 1) sums[rows.index[at]] += w * rows.value[at];
  }
  const reducedOffsets: number[] = [];
  let reducedWidth = 1;
  const reflections = design.terms.map((term, t) => {
    reducedOffsets.push(reducedWidth);
    reducedWidth += term.centred ? term.width - 1 : term.width;
    return term.centred ? reflectionOf(sums.subarray(design.offsets[t], design.offsets[t] + term.width)) : null;
  });
  return { reducedWidth, reducedOffsets, reflections };
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

function reflectInPlace(vector: Float64Array, start: number, stride: number, u: Float64Array): void {
  let dot = 0;
  for (let i = 0; i < u.length; i += 1) dot += u[i] * vector[start + i * stride];
  if (dot === 0) return;
  for (let i = 0; i < u.length; i += 1) vector[start + i * stride] -= dot * u[i];
}

/** Z'AZ of a full symmetric matrix (design.width square); `a` is overwritten on the way. */
export function reduceMatrix(design: Design, constraints: Constraints, a: Float64Array): Float64Array {
  const n = design.width;
  design.terms.forEach((_, t) => {
    const u = constraints.reflections[t];
    if (u === null) return;
    for (let row = 0; row < n; row += 1) reflectInPlace(a, row * n + design.offsets[t], 1, u);
    for (let column = 0; column < n; column += 1) reflectInPlace(a, design.offsets[t] * n + column, n, u);
  });
  const kept = keptCoefficients(design, constraints);
  const m = kept.length;
  const reduced = new Float64Array(m * m);
  for (let i = 0; i < m; i += 1) for (let j = 0; j < m; j += 1) reduced[i * m + j] = a[kept[i] * n + kept[j]];
  return reduced;
}

/** Z'b of a full vector; `b` is overwritten on the way. */
export function reduceVector(design: Design, constraints: Constraints, b: Float64Array): Float64Array {
  reflectAll(design, constraints, b);
  return Float64Array.from(keptCoefficients(design, constraints), (k) => b[k]);
}

/** Z gamma: full coefficients from reduced ones. */
export function expandVector(design: Design, constraints: Constraints, reduced: Float64Array): Float64Array {
  const full = new Float64Array(design.width);
  keptCoefficients(design, constraints).forEach((k, i) => {
    full[k] = reduced[i];
  });
  reflectAll(design, constraints, full);
  return full;
}

/** A term's penalty in reduced coefficients. */
export function reducePenalty(
  term: CompiledTerm,
  reflection: Float64Array | null,
  penalty: Float64Array,
): Float64Array {
  if (reflection === null) return penalty;
  const n = term.width;
  const a = Float64Array.from(penalty);
  for (let row = 0; row < n; row += 1) reflectInPlace(a, row * n, 1, reflection);
  for (let column = 0; column < n; column += 1) reflectInPlace(a, column, n, reflection);
  const m = n - 1;
  const reduced = new Float64Array(m * m);
  for (let i = 0; i < m; i += 1) for (let j = 0; j < m; j += 1) reduced[i * m + j] = a[(i + 1) * n + j + 1];
  return reduced;
}

function reflectAll(design: Design, constraints: Constraints, vector: Float64Array): void {
  design.terms.forEach((_, t) => {
    const u = constraints.reflections[t];
    if (u !== null) reflectInPlace(vector, design.offsets[t], 1, u);
  });
}

function keptCoefficients(design: Design, constraints: Constraints): number[] {
  const kept = [0];
  design.terms.forEach((term, t) => {
    for (let k = constraints.reflections[t] === null ? 0 : 1; k < term.width; k += 1) kept.push(design.offsets[t] + k);
  });
  return kept;
}
