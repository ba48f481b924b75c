/** Standard normal distribution function, by the complementary error function's continued fraction and series; to about 1e-14. */
export function normalProbability(x: number): number {
  const tail = upperTail(Math.abs(x));
  return x > 0 ? 1 - tail : tail;
}

function upperTail(x: number): number {
  const density = Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI);
  if (x < 3) {
    // Phi(x) - 1/2 = density * (x + x^3/3 + x^5/(3*5) + ...), Abramowitz & Stegun 26.2.11.
    let term = x;
    let sum = x;
    for (let k = 3; term > 1e-17 * sum; k += 2) {
      term *= (x * x) / k;
      sum += term;
    }
    return 0.5 - density * sum;
  }
  // Abramowitz & Stegun 26.2.14, from the inside out.
  let fraction = x;
  for (let k = 60; k >= 1; k -= 1) fraction = x + k / fraction;
  return density / fraction;
}

/** Point below which a standard normal number lies with probability p in (0, 1); Newton's method on the distribution function. */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`a quantile needs a probability inside (0, 1), received ${p}`);
  if (p > 0.5) return -normalQuantile(1 - p);
  // Below 1/2 the distribution function is convex: from the left Newton's first step passes the root, the rest come back to it.
  let x = -Math.sqrt(-2 * Math.log(2 * p));
  for (let k = 0; k < 60; k += 1) {
    const density = Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI);
    const step = (normalProbability(x) - p) / density;
    x -= step;
    if (Math.abs(step) <= 1e-14 * (1 + Math.abs(x))) break;
  }
  return x;
}
