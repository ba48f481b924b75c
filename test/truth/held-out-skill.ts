import { about, ManPosterior } from '../../src/ratings/man-posterior.ts';
import type { ManRating } from '../../src/ratings/part-rating.ts';
import { rateSeason } from '../../src/ratings/rate-seasons.ts';
import { facetOf, openWindow, type Part } from '../../src/ratings/skill-window.ts';
import type { LeagueEvidence } from './league-evidence.ts';

/**
 * Log likelihood of the last season's gathers of men whom the seasons before it show at two positions or more, by the shifts that those
 * seasons gave them, against everybody being average: with what a man's positions share, and without. The uncertainty of each shift is
 * integrated out.
 */
export function sharedSkillHeldOut(own: LeagueEvidence): { shared: number; apart: number; facets: number } {
  const last = openWindow(own.evidence.reach, (season) => season === own.lastSeason);
  const posterior = new ManPosterior();
  const scoreOf = (share: boolean) => {
    const { reach } = rateSeason(own.evidence, own.lastSeason - 1, { share });
    const facets = reach.filter(({ ballClass, direction }) => ballClass >= 0 && direction === -1);
    const positions = new Map<number, Set<number>>();
    for (const { man, position } of facets) positions.set(man, (positions.get(man) ?? new Set()).add(position));
    let [score, count] = [0, 0];
    for (const rating of facets.filter(({ man }) => positions.get(man)!.size > 1)) {
      const cell = last.facets
        .get(facetOf(rating.ballClass, rating.position))
        ?.men.find(({ man }) => man === rating.man);
      if (cell === undefined) continue;
      score += logLikelihood(rating, cell.all, posterior);
      count += 1;
    }
    return { score, count };
  };
  const [shared, apart] = [scoreOf(true), scoreOf(false)];
  return { shared: shared.score, apart: apart.score, facets: shared.count };
}

/** Of outcomes whose shift is normal about `rating.shift`, by Laplace about the joint mode. */
function logLikelihood({ shift: { mean, sd } }: ManRating, cell: Part, posterior: ManPosterior): number {
  cell.curve.at(mean);
  const atMean = cell.done * mean - cell.curve.integral;
  posterior.fit([about(mean, cell)], Float64Array.of(sd * sd));
  return atMean + posterior.logEvidence;
}
