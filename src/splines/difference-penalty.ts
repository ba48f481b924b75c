/**
 * D'D for differences of the given order, a `size` x `size` matrix row by row: the roughness penalty of P-splines
 * (Eilers & Marx 1996). Its null space holds the polynomials of degree below `order`; its rank is size - order. A cyclic
 * penalty takes the differences round the circle: its null space is the constant alone.
 * Throws RangeError for an order below 1 or not below `size`.
 */
export function differencePenalty(size: number, order: number, cyclic = false): Float64Array {
  if (order < 1 || order >= size)
    throw new RangeError(
      `a difference penalty on ${size} coefficients needs an order from 1 to ${size - 1}, received ${order}`,
    );
  let stencil = [1];
  for (let k = 0; k < order; k += 1) {
    const next = new Array<number>(stencil.length + 1).fill(0);
    for (let i = 0; i < stencil.length; i += 1) {
      next[i] -= stencil[i];
      next[i + 1] += stencil[i];
    }
    stencil = next;
  }
  const penalty = new Float64Array(size * size);
  const rows = cyclic ? size : size - order;
  for (let row = 0; row < rows; row += 1) {
    for (let i = 0; i <= order; i += 1) {
      for (let j = 0; j <= order; j += 1)
        penalty[((row + i) % size) * size + ((row + j) % size)] += stencil[i] * stencil[j];
    }
  }
  return penalty;
}
