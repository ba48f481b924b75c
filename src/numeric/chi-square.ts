import { normalQuantile } from './normal-quantile.ts';

/**
 * Quantile of a chi-square distribution by the cube root's near normality (Wilson & Hilferty 1931): for p from 0.025 to 0.975
 * within 1 % from 10 degrees of freedom, within 5 % at 5.
 */
export function chiSquareQuantile(p: number, freedom: number): number {
  const part = 2 / (9 * freedom);
  return freedom * Math.max(0, 1 - part + normalQuantile(p) * Math.sqrt(part)) ** 3;
}
