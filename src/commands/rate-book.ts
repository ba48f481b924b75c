import type { PeopleFacts } from '../book/read-people.ts';
import type { ClassPlays } from '../chances/class-plays.ts';
import { finishChancesOnOtherGames } from '../chances/finish-on-other-games.ts';
import type { PlayTable } from '../chances/play-table.ts';
import { averageInAir, averageOnGround } from '../chances/rating-models.ts';
import type { ClassLedger } from '../ledger/class-ledger.ts';
import type { FielderTotals } from '../ledger/season-totals.ts';
import { yearsBetween } from '../numeric/days.ts';
import { fitAgeCurve } from '../ratings/age-curve.ts';
import { HANDS } from '../ratings/directions.ts';
import { type AgeCurves, expectNextSeason, type NextSeason } from '../ratings/next-season.ts';
import { chanceNature, playingRecords } from '../ratings/playing-record.ts';
import { fitPlayingTime, type PlayingTime } from '../ratings/playing-time.ts';
import { collectEvidence, type RatingEvidence, type SeasonRatings, seasonsOf } from '../ratings/rate-seasons.ts';
import { rateTeamPlacement, type TeamPlacement } from '../ratings/team-placement.ts';
import type { RatingHands } from './ratings/rating-hands.ts';
import type { BookPlays, FittedModels, ScoredBook } from './score-book.ts';

/** The ratings of a book: of men as of the end of every season, of clubs' placement, and what is expected of the next season. */
export interface RatedBook {
  /** One a season, earliest first. */
  readonly seasons: readonly SeasonRatings[];
  readonly teamPlacement: readonly TeamPlacement[];
  readonly next: readonly NextSeason[];
  readonly playingTime: PlayingTime;
  readonly age: AgeCurves;
  /** Codes of HANDS by person. */
  readonly hands: Uint8Array;
}

/** Rates everybody (method.md 10). `totals` has the sums of the same ledgers. */
export async function rateBook(
  { table, grounders, air }: BookPlays,
  models: FittedModels,
  { ledgers }: ScoredBook,
  totals: readonly FielderTotals[],
  people: PeopleFacts,
  hands: RatingHands,
): Promise<RatedBook> {
  const throwing = Uint8Array.from(table.people, (id) => HANDS.indexOf((people.throws.get(id) ?? '') as 'L'));
  const evidence = bookEvidence({ grounders, air }, models, ledgers, throwing);
  const rating = Promise.all(seasonsOf(evidence).map((season) => hands.do('season', { evidence, season })));
  const records = playingRecords(totals);
  const ageAt = agesOf(table, people);
  const playingTime = fitPlayingTime(records);
  const age = { reach: fitAgeCurve(evidence.reach, ageAt), finish: fitAgeCurve(evidence.finish, ageAt) };
  const nature = chanceNature(ledgers);
  const teamPlacement = rateTeamPlacement(ledgers);
  const seasons = await rating;
  const last = seasons.at(-1);
  return {
    seasons,
    teamPlacement,
    next: last === undefined ? [] : expectNextSeason(last, { records, playingTime, nature, age, ageAt }),
    playingTime,
    age,
    hands: throwing,
  };
}

/** All that ratings rest on; `hands` has a code of HANDS by person. */
export function bookEvidence(
  { grounders, air }: Pick<BookPlays, 'grounders' | 'air'>,
  models: Pick<FittedModels, 'grounders' | 'air' | 'forRatings'>,
  ledgers: readonly ClassLedger[],
  hands: Uint8Array,
): RatingEvidence {
  const { forRatings } = models;
  const ledgerOf = (own: ClassPlays) => ledgers.find(({ plays }) => plays === own);
  const [ground, inAir] = [ledgerOf(grounders), ledgerOf(air)];
  return collectEvidence(
    models.grounders === null || ground === undefined
      ? null
      : {
          ledger: ground,
          chances: averageOnGround(grounders, models.grounders, forRatings),
          gathered: finishChancesOnOtherGames(forRatings.finishOnOtherGames, grounders),
        },
    models.air === null || inAir === undefined
      ? null
      : { ledger: inAir, chances: averageInAir(air, models.air, forRatings) },
    hands,
  );
}

/** A man's age in the middle of a season, NaN when his birth is not recorded. */
function agesOf(table: PlayTable, { born }: PeopleFacts): (man: number, season: number) => number {
  return (man, season) => {
    const birth = born.get(table.people[man]);
    return birth === undefined ? Number.NaN : yearsBetween(birth, `${season}-07-01`);
  };
}
