const RATIO = (Math.sqrt(5) - 1) / 2;

/** Where a function with one peak in [lo, hi] is largest, to within `width`, by golden sections (Kiefer, Proc. AMS 4, 1953). */
export function maximise(f: (x: number) => number, lo: number, hi: number, width: number): number {
  let [left, right] = [lo, hi];
  let [a, b] = [right - RATIO * (right - left), left + RATIO * (right - left)];
  let [fa, fb] = [f(a), f(b)];
  while (right - left > width) {
    if (fa >= fb) {
      [right, b, fb] = [b, a, fa];
      a = right - RATIO * (right - left);
      fa = f(a);
    } else {
      [left, a, fa] = [a, b, fb];
      b = left + RATIO * (right - left);
      fb = f(b);
    }
  }
  return 0.5 * (left + right);
}
