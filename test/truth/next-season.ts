import { FINISH, REACH } from '../../src/ledger/entry-kinds.ts';
import type { FielderTotals } from '../../src/ledger/season-totals.ts';
import type { IntervalLevel } from '../../src/ratings/intervals.ts';
import { expectNextSeason } from '../../src/ratings/next-season.ts';
import { intervalToCome, type OutsToCome } from '../../src/ratings/outs-to-come.ts';
import { chanceNature, playingRecords } from '../../src/ratings/playing-record.ts';
import { fitPlayingTime } from '../../src/ratings/playing-time.ts';
import { rateSeason } from '../../src/ratings/rate-seasons.ts';
import type { Judged } from './coverage.ts';
import type { LeagueEvidence } from './league-evidence.ts';

/** What was expected of a man at a position in the last season, by the seasons before it, and what he did. */
export interface Foretold {
  readonly position: number;
  /** His chances in the last season. */
  readonly chances: number;
  /** Outs per 100 chances of reach and finish: what he did, his rating, and his rate in the season before. */
  readonly rate: number;
  readonly rating: number;
  readonly lastYear: number;
  /** Sum of outs, expected with its standard deviation, and made. */
  readonly outs: Judged;
  /** Whether what he made was inside the interval of each level. */
  readonly inside: Readonly<Record<IntervalLevel, boolean>>;
}

/** Foretells the last season of a league from the earlier ones; the models must not have seen it. */
export function foretell(own: LeagueEvidence): Foretold[] {
  const before = own.totals.filter(({ season }) => season < own.lastSeason);
  const records = playingRecords(before);
  const ratings = rateSeason(own.evidence, own.lastSeason - 1);
  const expected = expectNextSeason(ratings, {
    records,
    playingTime: fitPlayingTime(records),
    nature: chanceNature(own.ledgers),
    age: { reach: null, finish: null },
    ageAt: () => Number.NaN,
  });
  return expected.flatMap(({ man, position, rating, outs }) => {
    const did = seasonOf(own.totals, man, position, own.lastSeason);
    const had = seasonOf(before, man, position, own.lastSeason - 1);
    if (!(did.chances > 0)) return [];
    return [
      {
        position,
        chances: did.chances,
        rate: (100 * did.outs) / did.chances,
        rating: rating.mean,
        lastYear: (100 * had.outs) / had.chances,
        outs: { mean: outs.mean, sd: outs.sd, truth: did.outs },
        inside: insideOf(outs, did.outs),
      },
    ];
  });
}

function insideOf(outs: OutsToCome, made: number): Foretold['inside'] {
  const isInside = (level: IntervalLevel) => {
    const [lo, hi] = intervalToCome(outs, level);
    return lo <= made && made <= hi;
  };
  return { 50: isInside(50), 80: isInside(80), 95: isInside(95) };
}

/** Share of what was made that was inside the intervals, per cent. */
export function foretoldInside(list: readonly Foretold[], level: IntervalLevel): number {
  return (100 * list.filter(({ inside }) => inside[level]).length) / list.length;
}

function seasonOf(totals: readonly FielderTotals[], man: number, position: number, season: number) {
  const sum = { chances: 0, outs: 0 };
  for (const total of totals) {
    if (total.fielder !== man || total.position !== position || total.season !== season) continue;
    sum.chances += total.chances;
    sum.outs += total.outs[REACH]! + total.outs[FINISH]!;
  }
  return sum;
}

/** Mean squared error of a forecast of rates, each man by his chances. */
export function forecastError(list: readonly Foretold[], forecast: (one: Foretold) => number): number {
  let [sum, weight] = [0, 0];
  for (const one of list) {
    sum += one.chances * (one.rate - forecast(one)) ** 2;
    weight += one.chances;
  }
  return sum / weight;
}
