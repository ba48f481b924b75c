import type { PeopleFacts } from '../book/read-people.ts';
import type { ColumnTable } from '../book/store.ts';
import type { DrawSettings } from '../chances/even-draws.ts';
import type { RunMode } from '../ledger/runs/stakes.ts';
import type { Progress } from '../progress.ts';
import { skillsFile } from '../ratings/rate-seasons.ts';
import type { SkillsFile } from '../ratings/skills.ts';
import { rateAndTabulate } from './rate-and-tabulate.ts';
import type { BootstrapSettings } from './results/game-sums.ts';
import { type BookPlays, type FittedModels, type ScoredBook, scoreBook } from './score-book.ts';

export interface ScoreSettings {
  readonly runs: RunMode;
  readonly draws: DrawSettings;
  readonly bootstrap: BootstrapSettings;
  /** Threads for ratings and standard errors, which do not depend on their number. */
  readonly threads: number;
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
export async function scoreAndTabulate(
  plays: BookPlays,
  models: FittedModels,
  settings: ScoreSettings,
  people: PeopleFacts,
  progress: Progress,
): Promise<TabulatedBook> {
  const scored = scoreBook(plays, models, settings.runs, settings.draws, progress);
  progress.stage('ratings, standard errors and tables', 0);
  const { bootstrap, threads } = settings;
  const { rated, tables } = await rateAndTabulate(plays, models, scored, people, bootstrap, threads);
  progress.finish();
  return { ...scored, tables, skills: skillsFile(rated.seasons, plays.table.people) };
}
