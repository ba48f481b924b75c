/** Slope of the least squares line of `of` on `on`, which have one length. */
export function slope(of: readonly number[], on: readonly number[]): number {
  const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
  const [y, x] = [mean(of), mean(on)];
  return mean(of.map((value, k) => (value - y) * (on[k]! - x))) / mean(on.map((value) => (value - x) ** 2));
}
