/**
 * Root of an increasing function by bisection in [lo, hi], to within `width`. A function that is positive throughout has
 * its root at or below `lo`, which is then returned; one that is negative throughout gives `hi`.
 */
export function findIncreasingRoot(f: (x: number) => number, lo: number, hi: number, width = 1e-12): number {
  let left = lo;
  let right = hi;
  if (f(left) >= 0) return left;
  if (f(right) <= 0) return right;
  while (right - left > width) {
    const middle = 0.5 * (left + right);
    if (middle === left || middle === right) break;
    const value = f(middle);
    if (value === 0) return middle;
    if (value < 0) left = middle;
    else right = middle;
  }
  return 0.5 * (left + right);
}
