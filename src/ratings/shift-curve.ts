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

/** Coefficients of a series: the integral has one more than the curve, and is longest. */
const TERMS = CURVE_POINTS + 1;

/** A curve ready to be asked; `at(v)` fills `value`, `slope` and `integral` (from 0 to v). */
export class ShiftCurve {
  /** Coefficients of value, slope and integral, side by side: entry 3 j + s is coefficient j of series s. */
  private readonly series = new Float64Array(3 * TERMS);
  /** Where every fit begins. */
  private readonly zero: { readonly value: number; readonly slope: number; readonly integral: number };
  /** The shift that the fields below are at: a fit asks for the same one several times. */
  private asked = Number.NaN;
  value = 0;
  slope = 0;
  integral = 0;

  constructor(sums: Float64Array) {
    const n = CURVE_POINTS;
    const { series } = this;
    const p = new Float64Array(n);
    for (let j = 0; j < n; j += 1) {
      let sum = 0;
      for (let k = 0; k < n; k += 1) sum += TRANSFORM[j * n + k] * sums[k];
      p[j] = sum;
      series[3 * j] = sum;
    }
    for (let j = n - 1; j >= 1; j -= 1) {
      series[3 * j - 2] = (j + 1 < n ? series[3 * j + 4] : 0) + (2 * j * p[j]) / WIDEST_SHIFT;
    }
    series[1] /= 2;
    for (let j = 1; j <= n; j += 1) {
      const below = j === 1 ? 2 * p[0] : p[j - 1];
      series[3 * j + 2] = (WIDEST_SHIFT * (below - (j + 1 < n ? p[j + 1] : 0))) / (2 * j);
    }
    this.sumSeries(0);
    this.zero = { value: this.value, slope: this.slope, integral: this.integral };
  }

  at(v: number): void {
    if (v === this.asked) return;
    this.asked = v;
    if (v === 0) {
      this.value = this.zero.value;
      this.slope = this.zero.slope;
      this.integral = 0;
      return;
    }
    const inside = Math.max(-WIDEST_SHIFT, Math.min(WIDEST_SHIFT, v));
    const beyond = v - inside;
    this.sumSeries(inside / WIDEST_SHIFT);
    const { value, slope } = this;
    this.value = value + slope * beyond;
    this.integral = this.integral - this.zero.integral + (value + 0.5 * slope * beyond) * beyond;
  }

  /** Sums of c_j T_j(x) by Clenshaw's recurrence, the three series at once: each waits for its own last step only. */
  private sumSeries(x: number): void {
    const { series } = this;
    const twice = 2 * x;
    let [p1, p2, d1, d2, i1, i2] = [0, 0, 0, 0, 0, 0];
    for (let at = 3 * (TERMS - 1); at >= 3; at -= 3) {
      const p0 = series[at] + twice * p1 - p2;
      const d0 = series[at + 1] + twice * d1 - d2;
      const i0 = series[at + 2] + twice * i1 - i2;
      p2 = p1;
      p1 = p0;
      d2 = d1;
      d1 = d0;
      i2 = i1;
      i1 = i0;
    }
    this.value = series[0] + x * p1 - p2;
    this.slope = series[1] + x * d1 - d2;
    this.integral = series[2] + x * i1 - i2;
  }
}
