import { type Expectations, expectedShift } from './expected-shifts.ts';
import type { FacetSpread } from './facet-spread.ts';
import { about, ManPosterior } from './man-posterior.ts';
import { medianOf } from './man-spread.ts';
import { ballClassOf, type Facet, type ManFacet, type SkillWindow } from './skill-window.ts';

/** Correlation of a man's shifts, each over its facet's spread: at two positions on one class of balls; on two classes. */
export interface SharedSkill {
  readonly sameClass: number;
  readonly otherClass: number;
}

export const NOTHING_SHARED: SharedSkill = { sameClass: 0, otherClass: 0 };

const TRIED = [0, 0.2, 0.4, 0.6, 0.8, 0.95];

export function facetCorrelation(shared: SharedSkill, a: Facet, b: Facet): number {
  if (a === b) return 1;
  return ballClassOf(a) === ballClassOf(b) ? shared.sameClass : shared.otherClass;
}

/** Everybody's facets, by man. */
export function facetsByMan(window: SkillWindow): Map<number, ManFacet[]> {
  const byMan = new Map<number, ManFacet[]>();
  for (const { men } of window.facets.values()) {
    for (const own of men) {
      const list = byMan.get(own.man);
      if (list === undefined) byMan.set(own.man, [own]);
      else list.push(own);
    }
  }
  return byMan;
}

/**
 * What a man's facets share beyond what is expected of him: one part for all of them, one a class of balls, one of the facet's own (method.md 10). Mean of the
 * posterior over a grid of both correlations, all values equally likely before: a book without men of two positions gets the
 * middle of what is possible, and nobody whom it would concern.
 */
export function shareSkill(
  window: SkillWindow,
  spreads: ReadonlyMap<Facet, FacetSpread>,
  expected: Expectations,
): SharedSkill {
  const several = [...facetsByMan(window).values()]
    .filter((own) => own.length > 1)
    .map((own) => ({
      own,
      cells: own.map(({ facet, man, all }) => about(expectedShift(expected, facet, man).mean, all)),
    }));
  const posterior = new ManPosterior();
  const tried: { shared: SharedSkill; value: number }[] = [];
  for (const sameClass of TRIED) {
    for (const otherClass of TRIED) {
      if (otherClass > sameClass) continue;
      const shared = { sameClass, otherClass };
      let value = 0;
      for (const { own, cells } of several) {
        posterior.fit(cells, facetPrior(own, spreads, shared));
        value += posterior.logEvidence;
      }
      tried.push({ shared, value });
    }
  }
  const most = tried.reduce((best, { value }) => Math.max(best, value), Number.NEGATIVE_INFINITY);
  let [total, same, other] = [0, 0, 0];
  for (const { shared, value } of tried) {
    const weight = Math.exp(value - most);
    total += weight;
    same += weight * shared.sameClass;
    other += weight * shared.otherClass;
  }
  return { sameClass: same / total, otherClass: other / total };
}

function facetPrior(
  own: readonly ManFacet[],
  spreads: ReadonlyMap<Facet, FacetSpread>,
  shared: SharedSkill,
): Float64Array {
  const n = own.length;
  const prior = new Float64Array(n * n);
  for (let c = 0; c < n; c += 1) {
    for (let d = 0; d < n; d += 1) {
      const [a, b] = [spreads.get(own[c].facet)!, spreads.get(own[d].facet)!];
      prior[c * n + d] = facetCorrelation(shared, own[c].facet, own[d].facet) * medianOf(a.man) * medianOf(b.man);
    }
  }
  return prior;
}
