import { findIncreasingRoot } from '../numeric/find-root.ts';
import { normalProbability, normalQuantile } from '../numeric/normal-quantile.ts';
import type { IntervalLevel } from './intervals.ts';
import type { Estimate } from './man-posterior.ts';
import type { ExpectedChances } from './playing-time.ts';

/**
 * Outs that a man will make beyond the average: with so many chances a normal, over all numbers of chances that may come a mixture of
 * them. It is more peaked than a normal of its standard deviation, since who hardly plays makes hardly any.
 */
export interface OutsToCome extends Estimate {
  /** Equally likely normals. */
  readonly parts: readonly Estimate[];
}

/** Numbers of chances that stand for all. */
const POINTS = 9;

/**
 * Outs with `rating` over as many chances as are expected, which are lognormal; skill, playing time and the luck of the plays are in
 * it, `chanceVariance` an average chance.
 */
export function outsToCome(rating: Estimate, chances: ExpectedChances, chanceVariance: number): OutsToCome {
  const [rate, rateSd] = [rating.mean / 100, rating.sd / 100];
  const parts = likelyChances(chances).map((n) => ({
    mean: rate * n,
    sd: Math.sqrt((rateSd * n) ** 2 + n * chanceVariance),
  }));
  const variance =
    rateSd ** 2 * (chances.mean ** 2 + chances.sd ** 2) + rate ** 2 * chances.sd ** 2 + chances.mean * chanceVariance;
  return { mean: rate * chances.mean, sd: Math.sqrt(variance), parts };
}

/** The same in another unit. */
export function inUnits({ mean, sd, parts }: OutsToCome, perOut: number): OutsToCome {
  const scale = (own: Estimate) => ({ mean: own.mean * perOut, sd: own.sd * perOut });
  return { ...scale({ mean, sd }), parts: parts.map(scale) };
}

/** Central interval of the mixture, each end to a millionth of the standard deviation. */
export function intervalToCome({ mean, sd, parts }: OutsToCome, level: IntervalLevel): readonly [number, number] {
  if (!(sd > 0)) return [mean, mean];
  const widest = Math.max(...parts.map((part) => Math.abs(part.mean - mean) + 8 * part.sd));
  const quantile = (p: number) =>
    findIncreasingRoot((x) => probabilityBelow(parts, x) - p, mean - widest, mean + widest, 1e-6 * sd);
  return [quantile(0.5 - level / 200), quantile(0.5 + level / 200)];
}

function probabilityBelow(parts: readonly Estimate[], x: number): number {
  let sum = 0;
  for (const { mean, sd } of parts) sum += sd > 0 ? normalProbability((x - mean) / sd) : x >= mean ? 1 : 0;
  return sum / parts.length;
}

/** Points of the lognormal with these two moments at equal steps of probability. */
function likelyChances({ mean, sd }: ExpectedChances): number[] {
  if (!(mean > 0)) return [0];
  const variance = Math.log(1 + (sd / mean) ** 2);
  const middle = Math.log(mean) - variance / 2;
  return Array.from({ length: POINTS }, (_, k) =>
    Math.exp(middle + Math.sqrt(variance) * normalQuantile((k + 0.5) / POINTS)),
  );
}
