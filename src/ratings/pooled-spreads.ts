import { drawEvenly, PRIOR_SCALE, SPREAD_GRID, type Spread } from './man-spread.ts';

/**
 * Standard deviation of the logarithms of the spreads of like facets about their middle: two positions seldom differ by more than a
 * factor of two in how much their men differ.
 */
const FACETS_APART = 0.4;
const MIDDLES = 40;
const [SMALLEST_MIDDLE, LARGEST_MIDDLE] = [0.02, 2];

/**
 * Spreads of like facets - the positions on one class of balls - by what all of them show: each is lognormal about a common middle
 * with FACETS_APART, the middle half-normal with PRIOR_SCALE times itself, which is nothing at 0 (decision 045). A position whose
 * own evidence would do with no spread at all then has about that of the others. Exact on grids of spread and middle; `likeliest`
 * and `gain` stay the facet's own.
 */
export function poolSpreads(spreads: readonly Spread[]): Spread[] {
  const step = Math.log(LARGEST_MIDDLE / SMALLEST_MIDDLE) / (MIDDLES - 1);
  const middles = Array.from({ length: MIDDLES }, (_, k) => SMALLEST_MIDDLE * Math.exp(k * step));
  const likelihoods = spreads.map(({ logEvidence }) => {
    const most = logEvidence.reduce((a, b) => Math.max(a, b));
    return logEvidence.map((value) => Math.exp(value - most));
  });
  const priors = middles.map((middle) => SPREAD_GRID.map((spread) => lognormal(spread, middle)));
  // By facet and middle: how likely the facet's evidence is.
  const fits = likelihoods.map((likelihood) =>
    priors.map((prior) => trapezoid(likelihood.map((value, k) => value * prior[k]))),
  );
  // The middle itself, and once more because the grid has equal steps of the logarithm.
  const logWeights = middles.map(
    (middle, m) =>
      fits.reduce((sum, fit) => sum + Math.log(Math.max(fit[m], 1e-300)), 0) +
      2 * Math.log(middle) -
      0.5 * (middle / PRIOR_SCALE) ** 2,
  );
  const most = Math.max(...logWeights);
  return spreads.map((spread, f) => {
    const density = new Float64Array(SPREAD_GRID.length);
    middles.forEach((_, m) => {
      const weight = Math.exp(logWeights[m] - most) / Math.max(fits[f][m], 1e-300);
      for (let k = 0; k < density.length; k += 1) density[k] += weight * likelihoods[f][k] * priors[m][k];
    });
    return { ...spread, draws: drawEvenly(density) };
  });
}

function lognormal(spread: number, middle: number): number {
  return spread > 0 ? Math.exp(-0.5 * (Math.log(spread / middle) / FACETS_APART) ** 2) / spread : 0;
}

function trapezoid(density: Float64Array): number {
  let sum = 0;
  for (let k = 1; k < density.length; k += 1)
    sum += 0.5 * (density[k] + density[k - 1]) * (SPREAD_GRID[k] - SPREAD_GRID[k - 1]);
  return sum;
}
