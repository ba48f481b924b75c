/**
 * Isotonic regression by pooling adjacent violators (Ayer, Brunk, Ewing, Reid & Silverman, Annals of Mathematical
 * Statistics 26, 1955): the increasing sequence nearest to `values` in weighted squares. Weights must be positive.
 */
export function isotonicFit(values: ArrayLike<number>, weights?: ArrayLike<number>): Float64Array {
  const n = values.length;
  const mean = new Float64Array(n);
  const weight = new Float64Array(n);
  const size = new Int32Array(n);
  let blocks = 0;
  for (let i = 0; i < n; i += 1) {
    mean[blocks] = values[i];
    weight[blocks] = weights === undefined ? 1 : weights[i];
    size[blocks] = 1;
    blocks += 1;
    while (blocks > 1 && mean[blocks - 2] >= mean[blocks - 1]) {
      const a = blocks - 2;
      const both = weight[a] + weight[a + 1];
      mean[a] = (weight[a] * mean[a] + weight[a + 1] * mean[a + 1]) / both;
      weight[a] = both;
      size[a] += size[a + 1];
      blocks -= 1;
    }
  }
  const fit = new Float64Array(n);
  let at = 0;
  for (let b = 0; b < blocks; b += 1) {
    fit.fill(mean[b], at, at + size[b]);
    at += size[b];
  }
  return fit;
}

/** Increasing regression of `values` on `x`: rows of equal x get one value. Returned in the order of the rows. */
export function isotonicOn(x: ArrayLike<number>, values: ArrayLike<number>): Float64Array {
  const order = sortedOrder(x);
  const sums: number[] = [];
  const counts: number[] = [];
  const tie = new Int32Array(order.length);
  for (let i = 0; i < order.length; i += 1) {
    if (i === 0 || x[order[i]] !== x[order[i - 1]]) {
      sums.push(0);
      counts.push(0);
    }
    const last = sums.length - 1;
    sums[last] += values[order[i]];
    counts[last] += 1;
    tie[i] = last;
  }
  const fit = isotonicFit(
    sums.map((sum, k) => sum / counts[k]),
    counts,
  );
  const out = new Float64Array(order.length);
  for (let i = 0; i < order.length; i += 1) out[order[i]] = fit[tie[i]];
  return out;
}

/** Numbers of the rows from the smallest x to the largest; equal ones stay in row order. */
export function sortedOrder(x: ArrayLike<number>): Uint32Array {
  return Uint32Array.from({ length: x.length }, (_, i) => i).sort((a, b) => x[a] - x[b] || a - b);
}
