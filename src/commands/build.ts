import { type Book, openBook } from '../book/open-book.ts';
import { readPeople } from '../book/read-people.ts';
import { readPlayTable } from '../book/read-play-table.ts';
import { readModelFile, replaceResults } from '../book/replace-results.ts';
import type { DrawWindow } from '../chances/even-draws.ts';
import { beginningAt, type NamedFits, nameFits } from '../chances/fit-choices.ts';
import { listRatingFits } from '../chances/rating-models.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import type { RunMode } from '../ledger/runs/stakes.ts';
import { FitFailure } from '../models/fit-record.ts';
import type { Progress } from '../progress.ts';
import { packBuild, unpackBuild, unpackRatingModels } from './build-file.ts';
import { type BuildReport, reportBuild } from './build-report.ts';
import { fitOnThreads, threadsFor } from './fits/fit-on-threads.ts';
import { scoreAndTabulate } from './score-and-tabulate.ts';
import { bookFits, type FittedModels, listBookFits, selectPlays } from './score-book.ts';

export interface BuildOptions {
  readonly book: string;
  /** What an out is worth: 0.75 run; by the hit it would be; by that and the base-out state. */
  readonly runs: RunMode;
  readonly window: DrawWindow;
  /** Placements that the opening mark averages over, 24 or more. */
  readonly draws: number;
  /** Replicates of the bootstrap from which standard errors come: 0 for none, else 100 or more; 1,000 unless given. */
  readonly replicates?: number;
  readonly seed: number;
  /** Threads for fits, ratings and standard errors; as many as the machine runs unless given, one for a small book. The book is the same. */
  readonly threads?: number;
  /** Begin each fit where the last build's ended: sooner done, the same but for the last digits. Default false. */
  readonly warm?: boolean;
}

export interface BuildEffects {
  readonly progress: Progress;
  readonly now: () => Date;
}

export const REPLICATES = 1000;
/** A standard error from fewer is not worth having. */
const FEWEST_REPLICATES = 100;

/** Fits the models, sets the marks, books the entries, and puts them in the place of the last build's. */
export async function build(options: BuildOptions, effects: BuildEffects): Promise<BuildReport> {
  const { seed, replicates = REPLICATES } = options;
  if (replicates !== 0 && !(replicates >= FEWEST_REPLICATES)) {
    throw new ExpectedFailure(
      'usage',
      `--replicates wants 0, for no standard errors, or at least ${FEWEST_REPLICATES}, and got ${replicates}.`,
      'Leave --replicates out for 1,000.',
    );
  }
  const book = await openBook(options.book, { access: 'write', command: 'build', now: effects.now });
  try {
    const plays = selectPlays(await readPlayTable(book));
    if (plays.grounders.count + plays.air.count === 0) {
      throw new ExpectedFailure(
        'data',
        `The book ${options.book} holds no play for the ledger: ${plays.table.count} plays, all of them bunts.`,
        'Read files with batted balls into it with intake, or look at table set_aside for the reasons why none was loaded.',
      );
    }
    const threads = options.threads ?? threadsFor(plays.table.count);
    const choices = options.warm === true ? beginningAt(await lastFits(book)) : {};
    const fitting = bookFits(plays, options.runs, choices);
    const models = await fitOrExplain(() => fitOnThreads(fitting, threads, effects.progress));
    const settings = { runs: options.runs, draws: options, bootstrap: { replicates, seed }, threads };
    const people = await readPeople(book);
    const { ledgers, tables, skills } = await scoreAndTabulate(plays, models, settings, people, effects.progress);
    const groups = ledgers.flatMap(({ balance }) => balance.groups);
    await replaceResults(book, {
      tables,
      models: packBuild({ models, groups, draws: options, skills }, models.forRatings),
      settings: {
        runs: options.runs,
        window: options.window,
        draws: String(options.draws),
        replicates: String(replicates),
        seed: String(seed),
        fits: options.warm === true ? 'from the last build' : 'afresh',
        run_table: models.values.table.reason,
      },
    });
    return reportBuild(options.book, plays, models, options.runs, ledgers);
  } finally {
    await book.close();
  }
}

/** The fits of the last build; none when there is no build, or one that this version cannot read. */
async function lastFits(book: Book): Promise<NamedFits> {
  try {
    const read = (name: string) => readModelFile(book, name);
    const [{ models }, forRatings] = [await unpackBuild(read), await unpackRatingModels(read)];
    return nameFits([...listBookFits(models), ...listRatingFits(forRatings)]);
  } catch (thrown) {
    if (!(thrown instanceof ExpectedFailure)) throw thrown;
    return nameFits([]);
  }
}

async function fitOrExplain(fit: () => Promise<FittedModels>): Promise<FittedModels> {
  try {
    return await fit();
  } catch (thrown) {
    if (!(thrown instanceof FitFailure)) throw thrown;
    throw new ExpectedFailure(
      'data',
      `${thrown.message}.`,
      'Look at the plays for columns in the wrong unit (table plays); if they are right, this is worth a report to the makers.',
      {},
      { cause: thrown },
    );
  }
}
