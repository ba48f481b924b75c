import type { PeopleFacts } from '../book/read-people.ts';
import type { ColumnTable } from '../book/store.ts';
import { sumFielders } from '../ledger/season-totals.ts';
import { type RatedBook, rateBook } from './rate-book.ts';
import { startRatingHands } from './ratings/rating-hands.ts';
import { type BootstrapSettings, sumGames } from './results/game-sums.ts';
import { estimateTables, ledgerTables } from './results/result-tables.ts';
import type { BookPlays, FittedModels, ScoredBook } from './score-book.ts';

export interface RatedTables {
  readonly rated: RatedBook;
  /** Everything that a build puts into the book, by table. */
  readonly tables: Record<string, ColumnTable>;
}

/**
 * Ratings, standard errors and all result tables of a scored book. With two threads or more, ratings and the bootstrap are done on
 * them while this one makes the tables that need neither; the results are the same to the last bit with any number.
 */
export async function rateAndTabulate(
  plays: BookPlays,
  models: FittedModels,
  scored: ScoredBook,
  people: PeopleFacts,
  bootstrap: BootstrapSettings,
  threads: number,
): Promise<RatedTables> {
  const hands = startRatingHands(threads);
  try {
    const totals = sumFielders(scored.ledgers);
    // Ratings first: their tasks are the longest.
    const [rated, sums, early] = await Promise.all([
      rateBook(plays, models, scored, totals, people, hands),
      sumGames(scored.ledgers, bootstrap, hands),
      ledgerTables(plays.table, models.values, scored),
    ]);
    return { rated, tables: { ...early, ...estimateTables(scored, totals, sums, rated, people) } };
  } finally {
    await hands.close();
  }
}
