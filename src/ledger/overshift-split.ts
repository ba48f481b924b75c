import { fisherInterval, pearson } from '../numeric/correlation.ts';

/** Plays of one season, one element a play in every array. */
export interface OvershiftPlays {
  /** Index of the fielding club, 0 to clubCount - 1. */
  readonly club: ArrayLike<number>;
  readonly clubCount: number;
  /** 1 in an overshift, 0 not, -1 when the infielders' starts were not seen: such a play has no placement and counts nowhere. */
  readonly overshift: ArrayLike<number>;
  /** Sum of the play's placement entries, runs. */
  readonly placementRuns: ArrayLike<number>;
}

export interface ClubOvershifts {
  /** Plays with all four infielders seen. */
  seenPlays: number;
  overshiftPlays: number;
  placementRunsInOvershift: number;
  placementRunsOtherwise: number;
}

/** A correlation over few clubs, with what it is worth. */
export interface ClubCorrelation {
  /** Clubs with at least one seen play. */
  readonly n: number;
  /** NaN with fewer than two clubs or no spread. */
  readonly r: number;
  /** Fisher's 95 % interval; NaN with fewer than four clubs. */
  readonly lo95: number;
  readonly hi95: number;
  /** n in words, and how near to zero a correlation over so few clubs cannot be told from none. */
  readonly note: string;
}

export interface OvershiftSplit {
  /** By club index. */
  readonly clubs: readonly ClubOvershifts[];
  /** Placement runs a seen play against the share of seen plays in overshifts, over clubs. */
  readonly correlation: ClubCorrelation;
}

/** Placement of every club in overshifts and otherwise, and whether the clubs that overshift more gain more by placement (method.md 11). */
export function splitByOvershift(plays: OvershiftPlays): OvershiftSplit {
  const clubs = Array.from({ length: plays.clubCount }, () => ({
    seenPlays: 0,
    overshiftPlays: 0,
    placementRunsInOvershift: 0,
    placementRunsOtherwise: 0,
  }));
  for (let at = 0; at < plays.club.length; at += 1) {
    if (plays.overshift[at] < 0) continue;
    const club = clubs[plays.club[at]];
    club.seenPlays += 1;
    if (plays.overshift[at] > 0) {
      club.overshiftPlays += 1;
      club.placementRunsInOvershift += plays.placementRuns[at];
    } else {
      club.placementRunsOtherwise += plays.placementRuns[at];
    }
  }
  return { clubs, correlation: correlateClubs(clubs) };
}

/** Rates, not totals: clubs meet different numbers of balls, and totals of both would rise together with them. */
export function correlateClubs(clubs: readonly ClubOvershifts[]): ClubCorrelation {
  const seen = clubs.filter(({ seenPlays }) => seenPlays > 0);
  const n = seen.length;
  const r = pearson(
    seen.map((c) => (c.placementRunsInOvershift + c.placementRunsOtherwise) / c.seenPlays),
    seen.map((c) => c.overshiftPlays / c.seenPlays),
  );
  if (Number.isNaN(r)) return { n, r, lo95: r, hi95: r, note: `over ${n} clubs without a spread: no correlation` };
  if (n < 4) return { n, r, lo95: Number.NaN, hi95: Number.NaN, note: `over ${n} clubs only: too few for an interval` };
  const none = fisherInterval(0, n).hi95.toFixed(2);
  const note = `over ${n} clubs: a correlation nearer to 0 than ${none} cannot be told from none`;
  return { n, r, ...fisherInterval(r, n), note };
}
