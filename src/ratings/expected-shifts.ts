import { groupMeans } from './group-means.ts';
import { type Estimate, ManPosterior } from './man-posterior.ts';
import { type Facet, type ManFacet, positionOf } from './skill-window.ts';

/** What to expect at one facet of a man, before his own chances there are looked at, by his home position. */
type ShiftsByHome = ReadonlyMap<number, Estimate>;

/** What to expect of everybody everywhere. */
export interface Expectations {
  /** Home position by man. */
  readonly homes: ReadonlyMap<number, number>;
  readonly shifts: ReadonlyMap<Facet, ShiftsByHome>;
}

const NOTHING: Estimate = { mean: 0, sd: 0 };

export function expectedShift({ homes, shifts }: Expectations, facet: Facet, man: number): Estimate {
  return shifts.get(facet)?.get(homes.get(man) ?? -1) ?? NOTHING;
}

/**
 * Mean shifts of the visitors from each home position at like facets - the positions on one class of balls - as `groupMeans` finds them from all of
 * theirs (method.md 10; decision 043). A centre fielder who helps out in left is not the left
 * fielder that a stranger would be. Who is at home has nothing expected of him: he is what the facet's zero is made of. `spreads` has the
 * standard deviation between men by facet.
 */
export function expectShifts(
  facets: readonly { readonly facet: Facet; readonly men: readonly ManFacet[] }[],
  homes: ReadonlyMap<number, number>,
  spreads: ReadonlyMap<Facet, number>,
): Map<Facet, ShiftsByHome> {
  const groups = facets.flatMap(({ facet, men }) => {
    const visitors = men.filter(({ man }) => homes.get(man) !== positionOf(facet));
    return groupEvidence(visitors, homes, spreads.get(facet)!).map((group) => ({
      ...group,
      facet,
      position: positionOf(facet),
    }));
  });
  const means = groupMeans(groups);
  const shifts = new Map<Facet, Map<number, Estimate>>(facets.map(({ facet }) => [facet, new Map()]));
  groups.forEach(({ facet, home }, g) => {
    const unit = spreads.get(facet)!;
    shifts.get(facet)!.set(home, { mean: unit * means[g].mean, sd: unit * means[g].sd });
  });
  return shifts;
}

const posterior = new ManPosterior();

/** Score and information by home position of these men's mean shift, in units of `spread`. */
function groupEvidence(men: readonly ManFacet[], homes: ReadonlyMap<number, number>, spread: number) {
  const groups = new Map<number, { score: number; information: number }>();
  const between = spread * spread;
  for (const { man, all } of men) {
    const home = homes.get(man);
    if (home === undefined) continue;
    const group = groups.get(home) ?? { score: 0, information: 0 };
    posterior.fit([all], Float64Array.of(between));
    group.score += posterior.score * spread;
    group.information += posterior.information * between;
    groups.set(home, group);
  }
  return [...groups].map(([home, group]) => ({ home, ...group }));
}
