/** Plain statistics of paired numbers, for tests that compare what was measured with what is true. */

export function mean(values: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 0; k < values.length; k += 1) sum += values[k]!;
  return sum / values.length;
}

/** Pearson's correlation. */
export function correlation(a: ArrayLike<number>, b: ArrayLike<number>): number {
  const [ma, mb] = [mean(a), mean(b)];
  let [ab, aa, bb] = [0, 0, 0];
  for (let k = 0; k < a.length; k += 1) {
    ab += (a[k]! - ma) * (b[k]! - mb);
    aa += (a[k]! - ma) ** 2;
    bb += (b[k]! - mb) ** 2;
  }
  return ab / Math.sqrt(aa * bb);
}

/** Correlation of a and b, the straight-line part of c taken out of both. */
export function partialCorrelation(a: ArrayLike<number>, b: ArrayLike<number>, c: ArrayLike<number>): number {
  const [ab, ac, bc] = [correlation(a, b), correlation(a, c), correlation(b, c)];
  return (ab - ac * bc) / Math.sqrt((1 - ac * ac) * (1 - bc * bc));
}

/** Standard error of a mean, from the values themselves. */
export function standardError(values: ArrayLike<number>): number {
  const m = mean(values);
  let squares = 0;
  for (let k = 0; k < values.length; k += 1) squares += (values[k]! - m) ** 2;
  return Math.sqrt(squares / (values.length - 1) / values.length);
}

export function rootMeanSquare(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let squares = 0;
  for (let k = 0; k < a.length; k += 1) squares += (a[k]! - b[k]!) ** 2;
  return Math.sqrt(squares / a.length);
}
