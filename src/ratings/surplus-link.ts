import { ManPosterior } from './man-posterior.ts';
import type { LeaguePart, ManFacet } from './skill-window.ts';

/**
 * Who gets to more balls also has them sooner: a man's mean surplus of a success (outs) is slope * his shift, give or take
 * `spread`.
 */
export interface SurplusLink {
  readonly slope: number;
  readonly spread: number;
}

/** What is believed of the slope before the data, as a standard deviation about 0, outs a logit: without evidence no link. */
const SLOPE_SPREAD = 0.1;

const posterior = new ManPosterior();

/**
 * Fits the link at one facet where men's shifts have the standard deviation `spread`. The mean surplus is independent of the
 * posterior of the shift given the shift, so that regressing it on posterior means finds the slope, and what is left of its squares after
 * noise and posterior variance is the link's own.
 */
export function linkSurplus(men: readonly ManFacet[], league: LeaguePart, spread: number): SurplusLink | null {
  const noise = league.surplusNoise;
  if (!(noise > 0)) return null;
  const variance = new Float64Array(1);
  const prior = Float64Array.of(spread * spread);
  const known = men.flatMap(({ all }) => {
    if (all.done === 0) return [];
    posterior.fit([all], prior);
    posterior.covarianceInto(variance);
    return [{ done: all.done, mean: all.surplus / all.done, shift: posterior.shift[0], unsure: variance[0] }];
  });
  let [xy, xx] = [0, 0];
  for (const { done, mean, shift } of known) {
    xy += done * mean * shift;
    xx += done * shift * shift;
  }
  const slope = xy / (xx + noise / SLOPE_SPREAD ** 2);
  let [over, weight] = [-noise * known.length, 0];
  for (const { done, mean, shift, unsure } of known) {
    over += done * ((mean - slope * shift) ** 2 - slope * slope * unsure);
    weight += done;
  }
  return { slope, spread: Math.sqrt(Math.max(over / weight, 0)) };
}
