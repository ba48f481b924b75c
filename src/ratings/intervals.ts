import { normalQuantile } from '../numeric/normal-quantile.ts';
import type { Estimate } from './man-posterior.ts';

/** Levels at which every rating shows its interval, per cent. */
export const INTERVAL_LEVELS = [50, 80, 95] as const;
export type IntervalLevel = (typeof INTERVAL_LEVELS)[number];

const HALF_WIDTHS: Readonly<Record<IntervalLevel, number>> = {
  50: normalQuantile(0.75),
  80: normalQuantile(0.9),
  95: normalQuantile(0.975),
};

/** Central interval of a normal posterior. */
export function intervalOf({ mean, sd }: Estimate, level: IntervalLevel): readonly [number, number] {
  return [mean - HALF_WIDTHS[level] * sd, mean + HALF_WIDTHS[level] * sd];
}
