import { type Cell, ManPosterior } from './man-posterior.ts';
import { type FacetSpread, findSpread, medianOf, SPREAD_DRAWS, SPREAD_GRID, type Spread } from './man-spread.ts';
import { poolSpreads } from './pooled-spreads.ts';
import { NOTHING_SHARED, type SharedSkill, shareSkill } from './shared-skill.ts';
import { ballClassOf, type Facet, type ManFacet, type SkillWindow } from './skill-window.ts';
import { linkSurplus } from './surplus-link.ts';

/** All that is believed of men before one of them is looked at. */
export interface SkillSpreads {
  readonly facets: ReadonlyMap<Facet, FacetSpread>;
  readonly shared: SharedSkill;
}

/** Twice the gain in log likelihood that a spread of 0 exceeds one time in twenty (half a chi-square; Self & Liang, JASA 82, 1987). */
const CARRIED = 2.706;

export interface SpreadSettings {
  /** Whether a man's shifts at several positions and on both classes of balls hang together. Default true. */
  readonly share?: boolean;
  /** Whether directions are tried. Default true. */
  readonly directions?: boolean;
}

/** Spreads of every facet of a window by marginal likelihood, and how a man's facets hang together. */
export function fitSpreads(window: SkillWindow, settings: SpreadSettings = {}): SkillSpreads {
  const facets = new Map<Facet, FacetSpread>();
  const fitted = [...window.facets].map(([facet, { men, league }]) => {
    return { facet, men, league, spread: fitFacet(men, settings.directions ?? true) };
  });
  for (const ballClass of new Set(fitted.map(({ facet }) => ballClassOf(facet)))) {
    const alike = fitted.filter(({ facet }) => ballClassOf(facet) === ballClass);
    poolSpreads(alike.map(({ spread }) => spread.man)).forEach((man, k) => {
      const { facet, men, league, spread } = alike[k];
      facets.set(facet, { ...spread, man, surplus: linkSurplus(men, league.all, medianOf(man)) });
    });
  }
  const shared = settings.share === false ? NOTHING_SHARED : shareSkill(window, facets);
  return { facets, shared };
}

const NO_SPREAD: Spread = {
  likeliest: 0,
  draws: new Float64Array(SPREAD_DRAWS),
  gain: 0,
  logEvidence: new Float64Array(SPREAD_GRID.length),
};

function fitFacet(men: readonly ManFacet[], tryDirections: boolean): Omit<FacetSpread, 'surplus'> {
  const whole = men.map(({ all }): readonly Cell[] => [all]);
  const man = findSpread((spread) => logEvidence(whole, spread, 0));
  const parted = men.map(({ byDirection }): readonly Cell[] => [...byDirection.values()]);
  if (!tryDirections || parted.every((cells) => cells.length < 2)) {
    return { man, direction: null, directionTried: NO_SPREAD };
  }
  const directionTried = findSpread((spread) => logEvidence(parted, man.likeliest, spread));
  if (2 * directionTried.gain <= CARRIED) return { man, direction: null, directionTried };
  const beside = findSpread((spread) => logEvidence(parted, spread, directionTried.likeliest));
  return { man: beside, direction: directionTried, directionTried };
}

const posterior = new ManPosterior();

/** Log marginal likelihood of men whose cells share one shift but for a part of each cell's own. */
function logEvidence(men: readonly (readonly Cell[])[], between: number, apart: number): number {
  const priors: Float64Array[] = [];
  let sum = 0;
  for (const cells of men) {
    const n = cells.length;
    priors[n] ??= alikePrior(n, between, apart);
    posterior.fit(cells, priors[n]);
    sum += posterior.logEvidence;
  }
  return sum;
}

function alikePrior(n: number, between: number, apart: number): Float64Array {
  const prior = new Float64Array(n * n).fill(between * between);
  for (let c = 0; c < n; c += 1) prior[c * n + c] += apart * apart;
  return prior;
}
