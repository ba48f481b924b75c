import { type Estimate, ManPosterior } from './man-posterior.ts';
import { findSpread, medianOf } from './man-spread.ts';
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

/** Score and information of a group's mean shift m, both in units of the spread between men: log likelihood score m - information m^2 / 2. */
interface GroupEvidence {
  readonly home: number;
  readonly score: number;
  readonly information: number;
}

/**
 * Mean shifts of the visitors from each home position at like facets - the positions on one class of balls - drawn to 0 by a common spread
 * of such means, a share of the spread between men (method.md 10; decision 043). A centre fielder who helps out in left is not the left
 * fielder that a stranger would be. Who is at home has nothing expected of him: he is what the facet's zero is made of. `spreads` has the
 * standard deviation between men by facet.
 */
export function expectShifts(
  facets: readonly { readonly facet: Facet; readonly men: readonly ManFacet[] }[],
  homes: ReadonlyMap<number, number>,
  spreads: ReadonlyMap<Facet, number>,
): Map<Facet, ShiftsByHome> {
  const evidence = facets.map(({ facet, men }) => {
    const visitors = men.filter(({ man }) => homes.get(man) !== positionOf(facet));
    return { facet, groups: groupEvidence(visitors, homes, spreads.get(facet)!) };
  });
  const all = evidence.flatMap(({ groups }) => groups);
  // In units of a spread, so that what findSpread believes beforehand is here: about as far apart as men are.
  const share = medianOf(findSpread((tried) => all.reduce((sum, group) => sum + logMarginal(group, tried * tried), 0)));
  return new Map(
    evidence.map(({ facet, groups }) => [
      facet,
      new Map(
        groups.map(({ home, score, information }) => {
          const variance = 1 / (information + 1 / (share * share));
          const unit = spreads.get(facet)!;
          return [home, { mean: unit * variance * score, sd: unit * Math.sqrt(variance) }];
        }),
      ),
    ]),
  );
}

const posterior = new ManPosterior();

function groupEvidence(men: readonly ManFacet[], homes: ReadonlyMap<number, number>, spread: number): GroupEvidence[] {
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

function logMarginal({ score, information }: GroupEvidence, variance: number): number {
  const spreadOut = 1 + information * variance;
  return 0.5 * ((score * score * variance) / spreadOut - Math.log(spreadOut));
}
