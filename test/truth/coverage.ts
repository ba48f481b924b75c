import { normalQuantile } from '../../src/numeric/normal-quantile.ts';

/** A normal estimate beside what is true. */
export interface Judged {
  readonly mean: number;
  readonly sd: number;
  readonly truth: number;
  /** Standard error of the truth, when replays measure it. */
  readonly truthError?: number;
}

/** Share of truths inside the central intervals of that level, per cent. */
export function coverage(list: readonly Judged[], level: number): number {
  const wide = normalQuantile(0.5 + level / 200);
  return (100 * list.filter((one) => Math.abs(one.truth - one.mean) <= wide * errorOf(one)).length) / list.length;
}

/** Of truth less estimate, as the interval has it and the truth's own error. */
function errorOf({ sd, truthError = 0 }: Judged): number {
  return Math.hypot(sd, truthError);
}

/** Mean square of the errors over what the intervals expect: 1 when they are right. */
export function squaresOverExpected(list: readonly Judged[]): number {
  return list.reduce((sum, one) => sum + ((one.truth - one.mean) / errorOf(one)) ** 2, 0) / list.length;
}

/** Slope of the truth on the estimates, through the origin: 1 when estimates are drawn in by the right amount. */
export function truthSlope(list: readonly Judged[]): number {
  const sum = (of: (one: Judged) => number) => list.reduce((total, one) => total + of(one), 0);
  return sum(({ mean, truth }) => mean * truth) / sum(({ mean }) => mean * mean);
}
