/** 97.5 % point of the normal distribution. */
const Z_975 = 1.959963984540054;

/** Product-moment correlation, -1 to 1; NaN without a spread. */
export function pearson(a: ArrayLike<number>, b: ArrayLike<number>): number {
  // Asked of the values themselves: the mean of equal numbers may differ from them in the last bit.
  if (isConstant(a) || isConstant(b)) return Number.NaN;
  const [meanA, meanB] = [meanOf(a), meanOf(b)];
  let [ab, aa, bb] = [0, 0, 0];
  for (let k = 0; k < a.length; k += 1) {
    ab += (a[k] - meanA) * (b[k] - meanB);
    aa += (a[k] - meanA) ** 2;
    bb += (b[k] - meanB) ** 2;
  }
  // Rounding may leave a perfect correlation a bit above one, where Fisher's z has no value.
  return Math.max(-1, Math.min(1, ab / Math.sqrt(aa * bb)));
}

function isConstant(values: ArrayLike<number>): boolean {
  for (let k = 1; k < values.length; k += 1) if (values[k] !== values[0]) return false;
  return true;
}

function meanOf(values: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 0; k < values.length; k += 1) sum += values[k];
  return sum / values.length;
}

/**
 * 95 % interval of a correlation r over n independent pairs: tanh(atanh r +- 1.96 / sqrt(n - 3)) (Fisher 1921).
 * NaN with fewer than four pairs.
 */
export function fisherInterval(r: number, n: number): { readonly lo95: number; readonly hi95: number } {
  if (n < 4) return { lo95: Number.NaN, hi95: Number.NaN };
  const half = Z_975 / Math.sqrt(n - 3);
  return { lo95: Math.tanh(Math.atanh(r) - half), hi95: Math.tanh(Math.atanh(r) + half) };
}

/** Reliability of a measure `times` as long as the one whose reliability is r (Spearman 1910, Brown 1910): times r / (1 + (times - 1) r). */
export function spearmanBrown(r: number, times = 2): number {
  return (times * r) / (1 + (times - 1) * r);
}
