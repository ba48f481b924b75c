import { about, ManPosterior } from './man-posterior.ts';
import { findSpread } from './man-spread.ts';
import type { LeaguePart, ManFacet } from './skill-window.ts';

/**
 * Who gets to more balls also has them sooner: a man's mean surplus of a success (outs) is slope * his shift, give or take
 * `spread`.
 */
export interface SurplusLink {
  readonly slope: number;
  readonly spread: number;
}

/**
 * What is believed of the slope before the data, as a standard deviation about 0, outs a logit: a step's time is worth a few hundredths of an
 * out (decision 040), and without evidence there is no link.
 */
const SLOPE_SPREAD = 0.03;

const posterior = new ManPosterior();

/**
 * Fits the link at one facet where men's shifts have the standard deviation `spread` about what is expected of them, `expectedOf` by man. The mean surplus is
 * independent of the posterior of the shift given the shift, so that regressing it on posterior means finds the slope; what is left
 * after noise and posterior variance is the link's own. Its `spread` has in it what is not known of either.
 */
export function linkSurplus(
  men: readonly ManFacet[],
  league: LeaguePart,
  spread: number,
  expectedOf: (man: number) => number,
): SurplusLink | null {
  const noise = league.surplusNoise;
  if (!(noise > 0)) return null;
  const variance = new Float64Array(1);
  const prior = Float64Array.of(spread * spread);
  const known = men.flatMap(({ man, all }) => {
    if (all.done === 0) return [];
    const expected = expectedOf(man);
    posterior.fit([about(expected, all)], prior);
    posterior.covarianceInto(variance);
    const shift = expected + posterior.shift[0];
    return [{ done: all.done, mean: all.surplus / all.done, shift, unsure: variance[0] }];
  });
  let [xy, xx] = [0, 0];
  for (const { done, mean, shift } of known) {
    xy += done * mean * shift;
    xx += done * shift * shift;
  }
  const precision = xx / noise + 1 / SLOPE_SPREAD ** 2;
  const slope = xy / noise / precision;
  // In units of one success's noise, which is what the grid of spreads is made for.
  const { draws } = findSpread((own) =>
    known.reduce((sum, { done, mean, shift, unsure }) => {
      const expected = noise / done + slope * slope * unsure + own * own * noise;
      return sum - 0.5 * (Math.log(expected) + (mean - slope * shift) ** 2 / expected);
    }, 0),
  );
  const ownVariance = (noise * draws.reduce((sum, own) => sum + own * own, 0)) / draws.length;
  return { slope, spread: Math.sqrt(ownVariance + (spread * spread) / precision) };
}
