import { type Expectations, expectedShift, expectShifts } from './expected-shifts.ts';
import type { FacetSpread } from './facet-spread.ts';
import { about, type Cell, type Estimate } from './man-posterior.ts';
import { findSpread, medianOf, SPREAD_DRAWS, SPREAD_GRID, type Spread } from './man-spread.ts';
import { poolSpreads } from './pooled-spreads.ts';
import { restrictedEvidence } from './restricted-evidence.ts';
import { NOTHING_SHARED, type SharedSkill, shareSkill } from './shared-skill.ts';
import { ballClassOf, type Facet, type ManFacet, type SkillWindow } from './skill-window.ts';
import { linkSurplus } from './surplus-link.ts';

/** All that is believed of men before one of them is looked at. */
export interface SkillSpreads {
  readonly facets: ReadonlyMap<Facet, FacetSpread>;
  readonly expected: Expectations;
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

/**
 * Spreads of every facet of a window by marginal likelihood, what to expect of a man by his home position (`homes`, by man), and how a man's
 * facets hang together. What is expected is judged by spreads that know nothing of it yet, and the spreads are then found about it.
 */
export function fitSpreads(
  window: SkillWindow,
  homes: ReadonlyMap<number, number>,
  settings: SpreadSettings = {},
): SkillSpreads {
  const classes = facetsByClass(window);
  const shifts = new Map<Facet, ReadonlyMap<number, Estimate>>();
  for (const alike of classes) {
    const strangers = poolSpreads(alike.map(({ men }) => findManSpread(men, () => 0)));
    const usual = new Map(alike.map(({ facet }, k) => [facet, medianOf(strangers[k])]));
    for (const [facet, byHome] of expectShifts(alike, homes, usual)) shifts.set(facet, byHome);
  }
  const expected = { homes, shifts };
  const meanAt = (facet: Facet) => (man: number) => expectedShift(expected, facet, man).mean;
  const facets = new Map<Facet, FacetSpread>();
  for (const alike of classes) {
    const fitted = alike.map(({ facet, men }) => fitFacet(men, meanAt(facet), settings.directions ?? true));
    poolSpreads(fitted.map(({ man }) => man)).forEach((man, k) => {
      const { facet, men, league } = alike[k];
      const surplus = linkSurplus(men, league.all, medianOf(man), meanAt(facet));
      facets.set(facet, { ...fitted[k], man, surplus });
    });
  }
  const shared = settings.share === false ? NOTHING_SHARED : shareSkill(window, facets, expected);
  return { facets, expected, shared };
}

/** Facets in groups of one class of balls. */
function facetsByClass(window: SkillWindow) {
  const all = [...window.facets].map(([facet, { men, league }]) => ({ facet, men, league }));
  const classes = new Set(all.map(({ facet }) => ballClassOf(facet)));
  return [...classes].map((ballClass) => all.filter(({ facet }) => ballClassOf(facet) === ballClass));
}

const NO_SPREAD: Spread = {
  likeliest: 0,
  draws: new Float64Array(SPREAD_DRAWS),
  gain: 0,
  logEvidence: new Float64Array(SPREAD_GRID.length),
};

/** Expected shift of a man at a facet. */
type MeanOf = (man: number) => number;

function findManSpread(men: readonly ManFacet[], meanOf: MeanOf): Spread {
  const whole = men.map(({ man, all }): readonly Cell[] => [about(meanOf(man), all)]);
  return findSpread((spread) => alikeEvidence(whole, spread, 0));
}

function fitFacet(men: readonly ManFacet[], meanOf: MeanOf, tryDirections: boolean): Omit<FacetSpread, 'surplus'> {
  const man = findManSpread(men, meanOf);
  const parted = men.map(({ man, byDirection }) => [...byDirection.values()].map((cell) => about(meanOf(man), cell)));
  if (!tryDirections || parted.every((cells) => cells.length < 2)) {
    return { man, direction: null, directionTried: NO_SPREAD };
  }
  const directionTried = findSpread((spread) => alikeEvidence(parted, man.likeliest, spread));
  if (2 * directionTried.gain <= CARRIED) return { man, direction: null, directionTried };
  const beside = findSpread((spread) => alikeEvidence(parted, spread, directionTried.likeliest));
  return { man: beside, direction: directionTried, directionTried };
}

/** Of men whose cells share one shift but for a part of each cell's own. */
function alikeEvidence(men: readonly (readonly Cell[])[], between: number, apart: number): number {
  return restrictedEvidence(men, (n) => alikePrior(n, between, apart));
}

function alikePrior(n: number, between: number, apart: number): Float64Array {
  const prior = new Float64Array(n * n).fill(between * between);
  for (let c = 0; c < n; c += 1) prior[c * n + c] += apart * apart;
  return prior;
}
