import { readSettings } from '../book/book-info.ts';
import { openBook } from '../book/open-book.ts';
import { readPeople } from '../book/read-people.ts';
import { readPlayTable } from '../book/read-play-table.ts';
import { readModelFile, replaceResults } from '../book/replace-results.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import type { RunMode } from '../ledger/runs/stakes.ts';
import type { Progress } from '../progress.ts';
import { packBuild, unpackBuild, unpackRatingModels } from './build-file.ts';
import { type BuildReport, reportBuild } from './build-report.ts';
import { threadsFor } from './fits/fit-on-threads.ts';
import { scoreAndTabulate } from './score-and-tabulate.ts';
import { type BookModels, type BookPlays, selectPlays } from './score-book.ts';

export interface UpdateOptions {
  readonly book: string;
}

export interface UpdateEffects {
  readonly progress: Progress;
  readonly now: () => Date;
}

export interface UpdateReport extends BuildReport {
  /** Plays for the ledger that had no marks before. */
  readonly newPlays: number;
  /** Plays that the models were fitted to have seen: those with marks after the last build. */
  readonly fittedPlays: number;
}

/** The setting that keeps how many plays the models were fitted on, across updates. */
const FITTED_PLAYS = 'fitted_plays';

/**
 * Scores a book as it now stands with the models of its last build, by the settings of that build, and puts the results in
 * the place of the old ones in one step (docs/decisions/025-update.md). All plays are scored, not only the new ones: even spots
 * of a season are drawn from all of its plays, and the books have to balance over them, so that the shifts are solved anew.
 * @throws ExpectedFailure `book`: nothing built yet, and what openBook says; `data`: a class of balls that the models lack
 */
export async function update({ book: dir }: UpdateOptions, effects: UpdateEffects): Promise<UpdateReport> {
  const book = await openBook(dir, { access: 'write', command: 'update', now: effects.now });
  try {
    const read = (name: string) => readModelFile(book, name);
    const { models, draws } = await unpackBuild(read);
    const forRatings = await unpackRatingModels(read);
    const settings = await readSettings(book.store);
    const [before] = await book.store.rows('SELECT count(*) AS n FROM marks');
    const marked = Number(before?.n);
    const fittedPlays = Number(settings[FITTED_PLAYS] ?? marked);
    const plays = selectPlays(await readPlayTable(book));
    refuseUnknownClasses(plays, models, dir);
    const runs = settings.runs as RunMode;
    const people = await readPeople(book);
    const bootstrap = { replicates: Number(settings.replicates), seed: Number(settings.seed) };
    const scoring = { runs, draws, bootstrap, threads: threadsFor(plays.table.count) };
    const { ledgers, tables, skills } = await scoreAndTabulate(
      plays,
      { ...models, forRatings },
      scoring,
      people,
      effects.progress,
    );
    const groups = ledgers.flatMap(({ balance }) => balance.groups);
    await replaceResults(book, {
      tables,
      models: packBuild({ models, groups, draws, skills }, forRatings),
      settings: { ...settings, [FITTED_PLAYS]: String(fittedPlays) },
    });
    const newPlays = plays.grounders.count + plays.air.count - marked;
    return { ...reportBuild(dir, plays, models, runs, ledgers), newPlays, fittedPlays };
  } finally {
    await book.close();
  }
}

function refuseUnknownClasses({ grounders, air }: BookPlays, models: BookModels, book: string): void {
  const unknown = [
    ...(grounders.count > 0 && models.grounders === null ? ['grounders'] : []),
    ...(air.count > 0 && models.air === null ? ['balls in the air'] : []),
  ];
  if (unknown.length === 0) return;
  throw new ExpectedFailure(
    'data',
    `The book ${book} now has ${unknown.join(' and ')}, of which it had none when it was built: there is no model for them.`,
    `Fit anew: leatherbook build --book ${book}`,
  );
}
