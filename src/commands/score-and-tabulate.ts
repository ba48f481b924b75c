import type { PeopleFacts } from '../book/read-people.ts';
import type { ColumnTable } from '../book/store.ts';
import type { DrawSettings } from '../chances/even-draws.ts';
import type { RunMode } from '../ledger/runs/stakes.ts';
import type { Progress } from '../progress.ts';
import { skillsFile } from '../ratings/rate-seasons.ts';
import type { SkillsFile } from '../ratings/skills.ts';
import { rateBook } from './rate-book.ts';
import type { BootstrapSettings } from './results/game-sums.ts';
import { resultTables } from './results/result-tables.ts';
import { type BookModels, type BookPlays, type ScoredBook, scoreBook } from './score-book.ts';

export interface ScoreSettings {
  readonly runs: RunMode;
  readonly draws: DrawSettings;
  readonly bootstrap: BootstrapSettings;
}

export interface TabulatedBook extends ScoredBook {
  /** Everything that a build puts into the book, by table. */
  readonly tables: Record<string, ColumnTable>;
  /** Everybody's shifts as of the end of the last season, for the build file. */
  readonly skills: SkillsFile | null;
}

/**
 * From plays and fitted models to everything that goes out: what a build does after it has fitted, and an update without
 * fitting. Whatever is added to the results belongs in here, so that both write it.
 */
export function scoreAndTabulate(
  plays: BookPlays,
  models: BookModels,
  settings: ScoreSettings,
  people: PeopleFacts,
  progress: Progress,
): TabulatedBook {
  const scored = scoreBook(plays, models, settings.runs, settings.draws, progress);
  const rated = rateBook(plays, models, scored, people);
  progress.stage('standard errors and tables', 0);
  const tables = resultTables(plays.table, models.values, scored, rated, people, settings.bootstrap);
  progress.finish();
  return { ...scored, tables, skills: skillsFile(rated.seasons, plays.table.people) };
}
