/**
 * Sums of chances as a function of a common shift on the logit scale: P(v) = sum of w / (1 + exp(-(logit + v))) over rows.
 * P, its slope and its integral are all that a likelihood in v needs, and P is smooth: it is kept as its values at Chebyshev's
 * points and read off their polynomial (Trefethen, Approximation Theory and Approximation Practice, chapters 3 and 8). Its
 * nearest poles are pi away from the real line, so 24 points over (-3, 3) give it to about 3e-10 of the rows' weight. However many
 * rows there are, a value then costs the same, and curves of several sets of rows add up.
 */
export const CURVE_POINTS = 24;
/** Shifts beyond this are answered along the tangent. */
export const WIDEST_SHIFT = 3;

const POINTS = Float64Array.from({ length: CURVE_POINTS }, (_, k) => {
  return WIDEST_SHIFT * Math.cos((Math.PI * (k + 0.5)) / CURVE_POINTS);
});
const POINT_ODDS = POINTS.map((v) => Math.exp(-v));

/** Adds one row, given exp(-logit), to the values at the points that begin at `at`. */
export function addRowInto(sums: Float64Array, at: number, inverseOdds: number, weight: number): void {
  for (let k = 0; k < CURVE_POINTS; k += 1) sums[at + k] += weight / (1 + inverseOdds * POINT_ODDS[k]);
}

/** Column j: what the values at the points add to coefficient j. */
const TRANSFORM = Float64Array.from({ length: CURVE_POINTS * CURVE_POINTS }, (_, i) => {
  const [j, k] = [Math.floor(i / CURVE_POINTS), i % CURVE_POINTS];
  return ((j === 0 ? 1 : 2) / CURVE_POINTS) * Math.cos((Math.PI * j * (k + 0.5)) / CURVE_POINTS);
});

/** A curve ready to be asked; `at(v)` fills `value`, `slope` and `integral` (from 0 to v). */
export class ShiftCurve {
  private readonly p: Float64Array;
  private readonly dp: Float64Array;
  private readonly ip: Float64Array;
  private readonly integralAtZero: number;
  value = 0;
  slope = 0;
  integral = 0;

  constructor(sums: Float64Array) {
    const n = CURVE_POINTS;
    this.p = new Float64Array(n);
    for (let j = 0; j < n; j += 1) {
      let sum = 0;
      for (let k = 0; k < n; k += 1) sum += TRANSFORM[j * n + k] * sums[k];
      this.p[j] = sum;
    }
    this.dp = new Float64Array(n);
    for (let j = n - 1; j >= 1; j -= 1) {
      this.dp[j - 1] = (j + 1 < n ? this.dp[j + 1] : 0) + (2 * j * this.p[j]) / WIDEST_SHIFT;
    }
    this.dp[0] /= 2;
    this.ip = new Float64Array(n + 1);
    for (let j = 1; j <= n; j += 1) {
      const below = j === 1 ? 2 * this.p[0] : this.p[j - 1];
      this.ip[j] = (WIDEST_SHIFT * (below - (j + 1 < n ? this.p[j + 1] : 0))) / (2 * j);
    }
    this.integralAtZero = chebyshevSum(this.ip, 0);
  }

  at(v: number): void {
    const inside = Math.max(-WIDEST_SHIFT, Math.min(WIDEST_SHIFT, v));
    const x = inside / WIDEST_SHIFT;
    const beyond = v - inside;
    const value = chebyshevSum(this.p, x);
    this.slope = chebyshevSum(this.dp, x);
    this.value = value + this.slope * beyond;
    this.integral = chebyshevSum(this.ip, x) - this.integralAtZero + (value + 0.5 * this.slope * beyond) * beyond;
  }
}

/** Sum of c_j T_j(x) by Clenshaw's recurrence. */
function chebyshevSum(c: Float64Array, x: number): number {
  let b1 = 0;
  let b2 = 0;
  for (let j = c.length - 1; j >= 1; j -= 1) {
    const b0 = c[j] + 2 * x * b1 - b2;
    b2 = b1;
    b1 = b0;
  }
  return c[0] + x * b1 - b2;
}
