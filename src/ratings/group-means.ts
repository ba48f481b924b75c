import { type Estimate, ManPosterior, normalCell } from './man-posterior.ts';
import { NormalMixture } from './normal-mixture.ts';

/**
 * What the chances of the visitors from one position at another say of their mean shift m: log likelihood score m - information m^2 / 2,
 * all in units of the spread between men.
 */
export interface GroupEvidence {
  readonly home: number;
  readonly position: number;
  readonly score: number;
  readonly information: number;
}

/** Standard deviations that are tried, of levels and of what is a group's own; they lie closer together where small, which then counts for more. */
export const TRIED_SPREADS: readonly number[] = [0, 0.15, 0.3, 0.5, 0.75, 1, 1.4, 1.9];

/**
 * Mean shifts of groups of visitors on one class of balls. The men of each position stand on a level, and a group's mean is how far its home's
 * level is above that of the position visited, and something of its own (docs/decisions/054-levels-of-positions.md): who is better than those he visits is
 * worse than those who visit him, and where few come from the levels of others speak for them. Levels and own parts are normal about 0; the posterior is
 * exact, averaged over all pairs of tried standard deviations, each weighed by its likelihood and a half-normal density.
 */
export function groupMeans(groups: readonly GroupEvidence[]): Estimate[] {
  const n = groups.length;
  const cells = groups.map(({ score, information }) => normalCell(information, score, 1));
  const levelsShared = groups.flatMap((a) => groups.map((b) => sharedLevels(a, b)));
  const prior = new Float64Array(n * n);
  const covariance = new Float64Array(n * n);
  const posterior = new ManPosterior();
  const tried: { readonly value: number; readonly mean: Float64Array; readonly variance: Float64Array }[] = [];
  for (const level of TRIED_SPREADS) {
    for (const own of TRIED_SPREADS) {
      levelsShared.forEach((shared, k) => {
        prior[k] = level * level * shared;
      });
      for (let g = 0; g < n; g += 1) prior[g * n + g] += own * own;
      posterior.fit(cells, prior);
      posterior.covarianceInto(covariance);
      tried.push({
        // Half-normal: positions are believed to differ about as much as men do, which is the unit.
        value: posterior.logEvidence - (level * level + own * own) / 2,
        mean: posterior.shift.slice(0, n),
        variance: Float64Array.from({ length: n }, (_, g) => covariance[g * n + g]),
      });
    }
  }
  const most = tried.reduce((best, { value }) => Math.max(best, value), Number.NEGATIVE_INFINITY);
  return groups.map((_, g) => {
    const mixture = new NormalMixture();
    for (const { value, mean, variance } of tried) mixture.add(mean[g], variance[g], Math.exp(value - most));
    return mixture.estimate();
  });
}

/** Covariance of two groups' means in levels of variance 1. */
function sharedLevels(a: GroupEvidence, b: GroupEvidence): number {
  const same = (x: number, y: number) => (x === y ? 1 : 0);
  return same(a.home, b.home) + same(a.position, b.position) - same(a.home, b.position) - same(a.position, b.home);
}
