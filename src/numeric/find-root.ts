/**
 * Root of an increasing function by bisection. Starts from [lo, hi] and stops when the bracket is narrower than `width`.
 * Returns NaN when the function has the same sign at both ends: the caller knows what that means.
 */
export function findIncreasingRoot(f: (x: number) => number, lo: number, hi: number, width = 1e-12): number {
  let left = lo;
  let right = hi;
  const atLeft = f(left);
  const atRight = f(right);
  if (atLeft === 0) return left;
  if (atRight === 0) return right;
  if (!(atLeft < 0 && atRight > 0)) return Number.NaN;
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
