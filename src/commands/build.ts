import { openBook } from '../book/open-book.ts';
import { readPeople } from '../book/read-people.ts';
import { readPlayTable } from '../book/read-play-table.ts';
import { replaceResults } from '../book/replace-results.ts';
import type { DrawWindow } from '../chances/even-draws.ts';
import { GRADES, type Grade } from '../chances/grades.ts';
import type { PlayTable } from '../chances/play-table.ts';
import { BALL_KINDS, type BallKind } from '../diamond/play-codes.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import type { ClassLedger } from '../ledger/class-ledger.ts';
import type { ClubCorrelation } from '../ledger/overshift-split.ts';
import type { RunMode } from '../ledger/runs/stakes.ts';
import { FitFailure } from '../models/fit-record.ts';
import type { Progress } from '../progress.ts';
import { packBuild } from './build-file.ts';
import { buildWarnings } from './build-warnings.ts';
import { correlateOvershifts } from './results/overshift-correlation.ts';
import { scoreAndTabulate } from './score-and-tabulate.ts';
import { type BookModels, fitBook, selectPlays } from './score-book.ts';

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
}

export interface BuildEffects {
  readonly progress: Progress;
  readonly now: () => Date;
}

export const REPLICATES = 1000;
/** A standard error from fewer is not worth having. */
const FEWEST_REPLICATES = 100;

/** Plays by grade. */
export type GradeCounts = Readonly<Record<Grade, number>>;

export interface BuildReport {
  readonly book: string;
  /** Plays in the book by ball kind; bunts are counted and not in the ledger. */
  readonly plays: Readonly<Record<BallKind, number>>;
  /** Plays in the ledger by how much is known of them, and the same by ball kind. */
  readonly grades: GradeCounts;
  readonly gradesByKind: Readonly<Record<string, GradeCounts>>;
  readonly entries: number;
  /** Where the runs of a state come from: the book's own innings, or the published table, and why. */
  readonly runTable: string;
  /** Over the clubs of each season: does placement follow the number of overshifts? */
  readonly overshifts: readonly (ClubCorrelation & { readonly season: number })[];
  /** Things to look at before the numbers are used. */
  readonly warnings: readonly string[];
}

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
    const models = fitOrExplain(() => fitBook(plays, options.runs, effects.progress));
    const settings = { runs: options.runs, draws: options, bootstrap: { replicates, seed } };
    const people = await readPeople(book);
    const { ledgers, tables, skills } = scoreAndTabulate(plays, models, settings, people, effects.progress);
    const groups = ledgers.flatMap(({ balance }) => balance.groups);
    await replaceResults(book, {
      tables,
      models: packBuild({ models, groups, draws: options, skills }),
      settings: {
        runs: options.runs,
        window: options.window,
        draws: String(options.draws),
        replicates: String(replicates),
        seed: String(seed),
        run_table: models.values.table.reason,
      },
    });
    return {
      book: options.book,
      plays: countKinds(plays.table),
      ...countGrades(ledgers),
      entries: ledgers.reduce((sum, { entries }) => sum + entries.count, 0),
      runTable: describeRunTable(models, options.runs),
      overshifts: correlateOvershifts(ledgers),
      warnings: [...buildWarnings(ledgers, models)],
    };
  } finally {
    await book.close();
  }
}

function fitOrExplain(fit: () => BookModels): BookModels {
  try {
    return fit();
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

function countKinds(table: PlayTable): Record<BallKind, number> {
  const plays = Object.fromEntries(BALL_KINDS.map((kind) => [kind, 0])) as Record<BallKind, number>;
  for (let row = 0; row < table.count; row += 1) plays[BALL_KINDS[table.ballKind[row]]] += 1;
  return plays;
}

function countGrades(ledgers: readonly ClassLedger[]): Pick<BuildReport, 'grades' | 'gradesByKind'> {
  const none = () => Object.fromEntries(GRADES.map((grade) => [grade, 0])) as Record<Grade, number>;
  const grades = none();
  const gradesByKind: Record<string, Record<Grade, number>> = {};
  for (const { plays, grade } of ledgers) {
    for (let at = 0; at < plays.count; at += 1) {
      const kind = BALL_KINDS[plays.table.ballKind[plays.row[at]]];
      gradesByKind[kind] ??= none();
      gradesByKind[kind][GRADES[grade[at]]] += 1;
      grades[GRADES[grade[at]]] += 1;
    }
  }
  return { grades, gradesByKind };
}

function describeRunTable({ values }: BookModels, runs: RunMode): string {
  const { source, reason } = values.table;
  return runs === 'flat' ? 'none: every out is worth the same' : `${source}: ${reason}`;
}
