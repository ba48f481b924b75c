import { isotonicOn, sortedOrder } from './isotonic.ts';
import { type BrierParts, brierScore, decomposeBrier } from './scores.ts';

/** What was forecast and what happened in one group of rows. */
export interface CalibrationGroup {
  readonly n: number;
  /** Mean forecast. */
  readonly expected: number;
  /** Share that happened, and its 95 % binomial interval. */
  readonly observed: number;
  readonly lo95: number;
  readonly hi95: number;
  /** (happened - expected) over the root of the sum of p(1 - p): beyond 3 either way is hardly chance. NaN without variance. */
  readonly z: number;
}

/** Two-sided 95 % point of the normal distribution. */
const Z95 = 1.959963984540054;

/** Binomial interval for `happened` of `n` (Wilson, JASA 22, 1927), 95 % unless told otherwise; (0, 1) for no rows. */
export function wilsonInterval(happened: number, n: number, z = Z95): readonly [number, number] {
  if (n === 0) return [0, 1];
  const share = happened / n;
  const z2 = z * z;
  const centre = (share + z2 / (2 * n)) / (1 + z2 / n);
  const half = (z / (1 + z2 / n)) * Math.sqrt((share * (1 - share)) / n + z2 / (4 * n * n));
  // At no and all of n the bounds are 0 and 1 but for rounding.
  return [happened === 0 ? 0 : centre - half, happened === n ? 1 : centre + half];
}

/** Calibration of rows by group: `group[i]` in 0..groups-1, or -1 for a row that belongs nowhere. Empty groups have n 0. */
export function calibrationByGroup(
  forecasts: ArrayLike<number>,
  outcomes: ArrayLike<number>,
  group: ArrayLike<number>,
  groups: number,
): CalibrationGroup[] {
  const n = new Float64Array(groups);
  const expected = new Float64Array(groups);
  const happened = new Float64Array(groups);
  const variance = new Float64Array(groups);
  for (let i = 0; i < forecasts.length; i += 1) {
    const g = group[i];
    if (g < 0) continue;
    n[g] += 1;
    expected[g] += forecasts[i];
    happened[g] += outcomes[i];
    variance[g] += forecasts[i] * (1 - forecasts[i]);
  }
  return Array.from(n, (count, g) => {
    const [lo95, hi95] = wilsonInterval(happened[g], count);
    const z = variance[g] > 0 ? (happened[g] - expected[g]) / Math.sqrt(variance[g]) : Number.NaN;
    return { n: count, expected: expected[g] / count, observed: happened[g] / count, lo95, hi95, z };
  });
}

/** Number of the equal-sized group of each row, by its forecast from small to large; rows of one forecast stay together. */
export function equalGroups(forecasts: ArrayLike<number>, groups: number): Int32Array {
  const order = sortedOrder(forecasts);
  const out = new Int32Array(order.length);
  for (let i = 0; i < order.length; i += 1) {
    const tied = i > 0 && forecasts[order[i]] === forecasts[order[i - 1]];
    out[order[i]] = tied ? out[order[i - 1]] : Math.floor((i * groups) / order.length);
  }
  return out;
}

/** A Brier score and its parts by groups of like forecasts. */
export interface ScoredBrier extends BrierParts {
  readonly brier: number;
  /** Brier score less its parts: what forecasts and outcomes do together inside the groups. */
  readonly within: number;
  /** How much of the score the best increasing recalibration would take away; never negative, and partly chance. */
  readonly miscalibration: number;
}

/** Brier score with Murphy's parts over `groups` equal-sized groups of like forecasts. */
export function scoreBrier(forecasts: ArrayLike<number>, outcomes: ArrayLike<number>, groups: number): ScoredBrier {
  const brier = brierScore(forecasts, outcomes);
  const cells = calibrationByGroup(forecasts, outcomes, equalGroups(forecasts, groups), groups).filter(
    ({ n }) => n > 0,
  );
  const parts = decomposeBrier(
    cells.map((cell) => cell.expected),
    cells.map((cell) => cell.observed),
    cells.map((cell) => cell.n),
  );
  const within = brier - (parts.reliability - parts.resolution + parts.uncertainty);
  return { ...parts, brier, within, miscalibration: brier - brierScore(isotonicOn(forecasts, outcomes), outcomes) };
}
