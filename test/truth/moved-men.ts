import { PLACEMENT } from '../../src/ledger/entry-kinds.ts';
import { homePositions } from '../../src/ratings/home-positions.ts';
import { rateMen } from '../../src/ratings/rate-men.ts';
import { fitSpreads } from '../../src/ratings/skill-spreads.ts';
import { openWindow } from '../../src/ratings/skill-window.ts';
import type { LeagueEvidence } from './league-evidence.ts';

/** A man at one position in two seasons running, each season taken by itself. */
export interface TwoSeasons {
  readonly moved: boolean;
  /** Reach ratings with their standard deviations. */
  readonly reach: readonly [number, number];
  readonly sd: readonly [number, number];
  /** Placement, outs per 100 chances. */
  readonly placement: readonly [number, number];
}

/** Everybody with `fewest` chances or more at a position, for one club, in each of two seasons running. */
export function twoSeasonsOf(own: LeagueEvidence, fewest: number): TwoSeasons[] {
  const seasons = [...new Set(own.totals.map(({ season }) => season))].sort((a, b) => a - b);
  const ratings = new Map(seasons.map((season) => [season, seasonRatings(own, season)]));
  const pairs: TwoSeasons[] = [];
  const regulars = own.totals.filter(({ chances, position }) => chances >= fewest && position > 2);
  for (const one of regulars) {
    for (const next of regulars) {
      if (next.fielder !== one.fielder || next.position !== one.position || next.season !== one.season + 1) continue;
      const rated = [one, next].map(
        ({ season, fielder, position }) => ratings.get(season)!.get(`${fielder} ${position}`)!,
      );
      pairs.push({
        moved: one.team !== next.team,
        reach: [rated[0]!.mean, rated[1]!.mean],
        sd: [rated[0]!.sd, rated[1]!.sd],
        placement: [(100 * one.outs[PLACEMENT]!) / one.chances, (100 * next.outs[PLACEMENT]!) / next.chances],
      });
    }
  }
  return pairs;
}

function seasonRatings({ evidence }: LeagueEvidence, season: number) {
  const window = openWindow(evidence.reach, (each) => each === season);
  const perHundred = (_: unknown, of: readonly { readonly chances: number }[]) =>
    100 / of.reduce((sum, { chances }) => sum + chances, 0);
  const men = rateMen(window, fitSpreads(window, homePositions(window)), perHundred);
  return new Map(
    men.filter(({ ballClass }) => ballClass === -1).map(({ man, position, rating }) => [`${man} ${position}`, rating]),
  );
}
