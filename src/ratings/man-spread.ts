import { maximise } from '../numeric/golden-section.ts';

/** A standard deviation between men on the logit scale, by what the data say of it. */
export interface Spread {
  /** Where the marginal likelihood is largest; 0 when it never rises. */
  readonly likeliest: number;
  /** SPREAD_DRAWS points at equal steps of its posterior, smallest first: its uncertainty goes into intervals through them. */
  readonly draws: Float64Array;
  /** By how much the log marginal likelihood is larger there than at 0. */
  readonly gain: number;
  /** Log marginal likelihood at the points of SPREAD_GRID. */
  readonly logEvidence: Float64Array;
}

export const SPREAD_DRAWS = 7;
const WIDEST_SPREAD = 2;
const STEPS = 40;
/**
 * Half-normal scale of what is believed of a spread before the data, logits: outfielders differ by nearly as much (decision 049). It
 * matters only where a few men would leave the spread open.
 */
export const PRIOR_SCALE = 1;
/** Spreads at which the likelihood is asked: squares, because what matters near 0 happens in small steps. */
export const SPREAD_GRID = Float64Array.from({ length: STEPS + 1 }, (_, k) => WIDEST_SPREAD * (k / STEPS) ** 2);

/**
 * A spread from its log marginal likelihood: the maximum to 1e-6, and points of the posterior under a half-normal prior.
 * `logEvidence` is asked some 70 times, for spreads in [0, 2].
 */
export function findSpread(logEvidence: (spread: number) => number): Spread {
  const grid = SPREAD_GRID;
  const values = grid.map(logEvidence);
  let best = 0;
  values.forEach((value, k) => {
    if (value > values[best]) best = k;
  });
  const [lo, hi] = [grid[Math.max(best - 1, 0)], grid[Math.min(best + 1, STEPS)]];
  const peak = maximise(logEvidence, lo, hi, 1e-6);
  const gain = logEvidence(peak) - values[0];
  return {
    likeliest: gain > 0 ? peak : 0,
    draws: drawEvenly(posteriorDensity(values)),
    gain: Math.max(gain, 0),
    logEvidence: values,
  };
}

function posteriorDensity(logEvidence: Float64Array): Float64Array {
  const most = logEvidence.reduce((a, b) => Math.max(a, b));
  return SPREAD_GRID.map((s, k) => Math.exp(logEvidence[k] - most - 0.5 * (s / PRIOR_SCALE) ** 2));
}

/** Points at which the distribution function of a density on SPREAD_GRID is (d + 1/2) / SPREAD_DRAWS, by the trapezoidal rule. */
export function drawEvenly(density: Float64Array): Float64Array {
  const grid = SPREAD_GRID;
  const below = new Float64Array(grid.length);
  for (let k = 1; k < grid.length; k += 1) {
    below[k] = below[k - 1] + 0.5 * (density[k] + density[k - 1]) * (grid[k] - grid[k - 1]);
  }
  const all = below[below.length - 1];
  return Float64Array.from({ length: SPREAD_DRAWS }, (_, d) => {
    const wanted = (all * (d + 0.5)) / SPREAD_DRAWS;
    const k = below.findIndex((value) => value >= wanted);
    const share = (wanted - below[k - 1]) / (below[k] - below[k - 1]);
    return grid[k - 1] + share * (grid[k] - grid[k - 1]);
  });
}

/** Median of a spread's posterior. */
export function medianOf({ draws }: Spread): number {
  return draws[(draws.length - 1) / 2];
}
