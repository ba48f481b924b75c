import { openBook } from '../book/open-book.ts';
import { readNames, readPlayTable } from '../book/read-play-table.ts';
import { replaceResults } from '../book/replace-results.ts';
import type { DrawWindow } from '../chances/even-draws.ts';
import { FULL, GRADES, type Grade } from '../chances/grades.ts';
import { fitGrounderModels, type GrounderModels } from '../chances/grounder-models.ts';
import { selectGrounders } from '../chances/grounders.ts';
import type { PlayTable } from '../chances/play-table.ts';
import { BALL_KINDS, type BallKind } from '../diamond/play-codes.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import { type GrounderLedger, scoreGrounders } from '../ledger/score-grounders.ts';
import { FitFailure } from '../models/fit-record.ts';
import type { Progress } from '../progress.ts';
import { packBuild } from './build-file.ts';
import { resultTables } from './result-tables.ts';

export interface BuildOptions {
  readonly book: string;
  /** What an out is worth; `flat` is 0.75 run. */
  readonly runs: 'flat';
  readonly window: DrawWindow;
  /** Placements that the opening mark averages over, 24 or more. */
  readonly draws: number;
  readonly seed: number;
}

export interface BuildEffects {
  readonly progress: Progress;
  readonly now: () => Date;
}

export interface BuildReport {
  readonly book: string;
  /** Plays in the book by ball kind; only grounders are in the ledger so far. */
  readonly plays: Readonly<Record<BallKind, number>>;
  /** Grounders by how much is known of them. */
  readonly grades: Readonly<Record<Grade, number>>;
  readonly entries: number;
  /** Things to look at before the numbers are used. */
  readonly warnings: readonly string[];
}

/** A logit shift above this means that a model is off (method.md 7). */
const LARGE_SHIFT = 0.05;
const FEW_GROUNDERS = 3000;

/** Fits the models, sets the marks, books the entries, and puts them in the place of the last build's. */
export async function build(options: BuildOptions, effects: BuildEffects): Promise<BuildReport> {
  const book = await openBook(options.book, { access: 'write', command: 'build', now: effects.now });
  try {
    const table = await readPlayTable(book);
    const grounders = selectGrounders(table);
    if (grounders.count === 0) {
      throw new ExpectedFailure(
        'data',
        `The book ${options.book} holds no grounders: ${table.count} plays, none of kind ground.`,
        'Read a file with grounders into it with intake, or look at table set_aside for the reasons why none was loaded.',
      );
    }
    const models = fitOrExplain(() => fitGrounderModels(grounders, effects.progress));
    const ledger = scoreGrounders(grounders, models, options, effects.progress);
    await replaceResults(book, {
      tables: resultTables(ledger, await readNames(book)),
      models: packBuild(models, ledger.balance.groups, options),
      settings: {
        runs: options.runs,
        window: options.window,
        draws: String(options.draws),
        seed: String(options.seed),
      },
    });
    return reportOf(options.book, table, ledger, models);
  } finally {
    await book.close();
  }
}

function fitOrExplain(fit: () => GrounderModels): GrounderModels {
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

function reportOf(book: string, table: PlayTable, ledger: GrounderLedger, models: GrounderModels): BuildReport {
  const plays = Object.fromEntries(BALL_KINDS.map((kind) => [kind, 0])) as Record<BallKind, number>;
  for (let row = 0; row < table.count; row += 1) plays[BALL_KINDS[table.ballKind[row]]] += 1;
  const grades = Object.fromEntries(GRADES.map((grade) => [grade, 0])) as Record<Grade, number>;
  for (const grade of ledger.grade) grades[GRADES[grade]] += 1;
  return { book, plays, grades, entries: ledger.entries.count, warnings: [...warningsOf(ledger, models)] };
}

function* warningsOf(ledger: GrounderLedger, models: GrounderModels): Generator<string> {
  if (models.travel.fitted === null) {
    yield 'Too few gather times to learn how long balls travel: a plain physical rule serves, and marks are rougher for it.';
  }
  const full = ledger.grade.reduce((sum, grade) => sum + (grade === FULL ? 1 : 0), 0);
  if (full < FEW_GROUNDERS) {
    yield `Only ${full} fully recorded grounders to learn from: below ${FEW_GROUNDERS} the surfaces are mostly smoothing, and the ledger mostly says that everybody is average.`;
  }
  const { groups } = ledger.balance;
  for (const mark of ['opening', 'set', 'gathered'] as const) {
    const information = informationByGroup(ledger, ledger[mark]);
    for (const [number, group] of groups.entries()) {
      const shift = group[mark];
      if (Math.abs(shift) > LARGE_SHIFT && Math.abs(shift) > 2 / Math.sqrt(information[number])) {
        yield `${group.season}, grounders of grade ${GRADES[group.grade]} (${group.plays}): the ${mark} mark had to be shifted by ${shift.toFixed(3)} on the logit scale; more than ${LARGE_SHIFT} says that a model is off.`;
      }
    }
  }
}

/** Sum of p(1 - p) of a mark by balance group: one over its root is the standard error of the group's shift. */
function informationByGroup(ledger: GrounderLedger, mark: Float64Array): Float64Array {
  const information = new Float64Array(ledger.balance.groups.length);
  mark.forEach((p, at) => {
    if (!Number.isNaN(p)) information[ledger.balance.groupOf[at]] += p * (1 - p);
  });
  return information;
}
