import type { ColumnTable } from '../book/store.ts';
import type { DrawSettings } from '../chances/even-draws.ts';
import type { RunMode } from '../ledger/runs/stakes.ts';
import type { Progress } from '../progress.ts';
import { resultTables } from './results/result-tables.ts';
import { type BookModels, type BookPlays, type ScoredBook, scoreBook } from './score-book.ts';

export interface ScoreSettings {
  readonly runs: RunMode;
  readonly draws: DrawSettings;
}

export interface TabulatedBook extends ScoredBook {
  /** Everything that a build puts into the book, by table. */
  readonly tables: Record<string, ColumnTable>;
}

/**
 * From plays and fitted models to everything that goes out: what a build does after it has fitted, and an update without
 * fitting. Whatever is added to the results belongs in here, so that both write it.
 * `nameOf`: names by person id.
 */
export function scoreAndTabulate(
  plays: BookPlays,
  models: BookModels,
  settings: ScoreSettings,
  nameOf: ReadonlyMap<string, string>,
  progress: Progress,
): TabulatedBook {
  const scored = scoreBook(plays, models, settings.runs, settings.draws, progress);
  return { ...scored, tables: resultTables(plays.table, scored.ledgers, scored.turns, models.values, nameOf) };
}
