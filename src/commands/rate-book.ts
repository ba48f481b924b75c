import type { PeopleFacts } from '../book/read-people.ts';
import { AirChances } from '../chances/air/air-chances.ts';
import { GrounderChances } from '../chances/grounder-chances.ts';
import { HANDS } from '../ratings/directions.ts';
import { collectEvidence, type RatingEvidence, rateSeasons, type SeasonRatings } from '../ratings/rate-seasons.ts';
import type { BookModels, BookPlays, ScoredBook } from './score-book.ts';

/** The ratings of every season of a book, and what they rest on. */
export interface RatedBook {
  readonly evidence: RatingEvidence;
  /** One a season, earliest first. */
  readonly seasons: readonly SeasonRatings[];
  /** Codes of HANDS by person. */
  readonly hands: Uint8Array;
}

/** Rates everybody as of the end of each season (method.md 10). */
export function rateBook(
  { table, grounders, air }: BookPlays,
  models: BookModels,
  { ledgers }: ScoredBook,
  people: PeopleFacts,
): RatedBook {
  const hands = Uint8Array.from(table.people, (id) => HANDS.indexOf((people.throws.get(id) ?? '') as 'L'));
  const ledger = ledgers.find(({ plays }) => plays === grounders);
  const evidence = collectEvidence(
    models.grounders === null || ledger === undefined
      ? null
      : { plays: grounders, chances: new GrounderChances(grounders, models.grounders), ledger },
    models.air === null ? null : { plays: air, chances: new AirChances(air, models.air) },
    hands,
  );
  return { evidence, seasons: rateSeasons(evidence), hands };
}
