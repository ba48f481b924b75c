import { reflectInPlace, reflectRowsInPlace } from './constraints.ts';
import { dotProduct, type Penalties } from './penalties.ts';

/** What the derivatives of the marginal likelihood need of V, the inverse of information + penalty, and of the coefficients. */
export interface PenaltyTraces {
  /** b' S_j b. */
  readonly rough: readonly number[];
  /** tr(V S_j). */
  readonly used: readonly number[];
  /** tr(V S_j V S_k), row by row. */
  readonly cross: readonly number[];
  /** b' S_j V S_k b, row by row. */
  readonly pulled: readonly number[];
}

/**
 * Traces by way of the coefficients before centring took one away from each term, where the penalties are sparse: with
 * Z the reduced coordinates, tr(V Z'SZ) = tr(ZVZ' S). Only the coefficients that a penalty reaches take part.
 */
export function penaltyTraces(penalties: Penalties, inverse: Float64Array, reduced: Float64Array): PenaltyTraces {
  const { blocks, groups } = penalties;
  const count = blocks.length;
  const ats = startsOf(penalties);
  const size = ats[groups.length];
  const v = expandInverse(penalties, inverse, reduced.length, ats);
  const b = expandReduced(penalties, reduced, ats);
  const from = groups.flatMap((group, g) => new Array<number>(group.count).fill(ats[g]));
  const pulls = blocks.map(({ sparse }, j) => sparseTimes(sparse, b, from[j], 1));
  const products = blocks.map(({ sparse }, j) => sparseTimes(sparse, v, from[j], size));
  const cross = new Array<number>(count * count).fill(0);
  const pulled = new Array<number>(count * count).fill(0);
  for (let j = 0; j < count; j += 1) {
    const along = vectorTimes(pulls[j], v, from[j], size);
    for (let k = 0; k <= j; k += 1) {
      const trace = traceOfProduct(products[j], from[j], products[k], from[k], size);
      const pull = dotProduct(pulls[k], along.subarray(from[k]));
      cross[j * count + k] = trace;
      cross[k * count + j] = trace;
      pulled[j * count + k] = pull;
      pulled[k * count + j] = pull;
    }
  }
  return {
    rough: pulls.map((pull, j) => dotProduct(pull, b.subarray(from[j]))),
    used: products.map((product, j) => {
      let sum = 0;
      for (let i = 0; i < blocks[j].sparse.width; i += 1) sum += product[i * size + from[j] + i];
      return sum;
    }),
    cross,
    pulled,
  };
}

/** S times the rows of a matrix (`columns` wide) from row `from` on: as many rows as S has. */
function sparseTimes(
  { width, start, column, value }: Penalties['blocks'][number]['sparse'],
  matrix: Float64Array,
  from: number,
  columns: number,
): Float64Array {
  const out = new Float64Array(width * columns);
  for (let i = 0; i < width; i += 1)
    for (let e = start[i]; e < start[i + 1]; e += 1)
      addMultiple(out, i * columns, value[e], matrix, (from + column[e]) * columns, columns);
  return out;
}

/** vector' M over the rows of a square matrix from row `from` on. */
function vectorTimes(vector: Float64Array, matrix: Float64Array, from: number, size: number): Float64Array {
  const out = new Float64Array(size);
  for (let i = 0; i < vector.length; i += 1) addMultiple(out, 0, vector[i], matrix, (from + i) * size, size);
  return out;
}

function addMultiple(
  to: Float64Array,
  at: number,
  factor: number,
  from: Float64Array,
  source: number,
  n: number,
): void {
  for (let k = 0; k < n; k += 1) to[at + k] += factor * from[source + k];
}

/** Numbers a side of the tiles in which a matrix is read across its rows. */
const TILE = 16;

/** tr(AB) of two square matrices of which only rows from `rowA` and from `rowB` on are held, and others are zero. */
function traceOfProduct(a: Float64Array, rowA: number, b: Float64Array, rowB: number, size: number): number {
  const heightA = a.length / size;
  const heightB = b.length / size;
  let trace = 0;
  for (let i0 = 0; i0 < heightA; i0 += TILE)
    for (let k0 = 0; k0 < heightB; k0 += TILE) {
      const i1 = Math.min(i0 + TILE, heightA);
      const k1 = Math.min(k0 + TILE, heightB);
      for (let i = i0; i < i1; i += 1) {
        const atA = i * size + rowB;
        const atB = rowA + i;
        for (let k = k0; k < k1; k += 1) trace += a[atA + k] * b[k * size + atB];
      }
    }
  return trace;
}

/** First coefficient of each group when full groups stand side by side; the last number is the number of all. */
function startsOf({ groups, blocks }: Penalties): number[] {
  const ats = [0];
  for (const { first } of groups) ats.push(ats[ats.length - 1] + blocks[first].sparse.width);
  return ats;
}

function expandInverse(
  { groups, blocks }: Penalties,
  inverse: Float64Array,
  n: number,
  ats: readonly number[],
): Float64Array {
  const size = ats[groups.length];
  const full = new Float64Array(size * size);
  groups.forEach((rows, g) => {
    groups.forEach((columns, h) => {
      const down = ats[g + 1] - rows.width;
      const across = ats[h + 1] - columns.width;
      for (let i = 0; i < rows.width; i += 1) {
        const from = (rows.start + i) * n + columns.start;
        full.set(inverse.subarray(from, from + columns.width), (down + i) * size + across);
      }
    });
  });
  groups.forEach(({ first }, g) => {
    const { reflection } = blocks[first];
    if (reflection === null) return;
    for (let row = 0; row < size; row += 1) reflectInPlace(full, row * size + ats[g], reflection);
    reflectRowsInPlace(full, size, ats[g], reflection);
  });
  return full;
}

function expandReduced({ groups, blocks }: Penalties, reduced: Float64Array, ats: readonly number[]): Float64Array {
  const full = new Float64Array(ats[groups.length]);
  groups.forEach(({ first, start, width }, g) => {
    full.set(reduced.subarray(start, start + width), ats[g + 1] - width);
    const { reflection } = blocks[first];
    if (reflection !== null) reflectInPlace(full, ats[g], reflection);
  });
  return full;
}
