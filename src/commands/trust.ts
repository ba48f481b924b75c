import { openBook } from '../book/open-book.ts';
import { readPlayTable } from '../book/read-play-table.ts';
import { readModelFile } from '../book/replace-results.ts';
import { GRADES } from '../chances/grades.ts';
import { listGrounderFits } from '../chances/grounder-models.ts';
import { type Grounders, selectGrounders } from '../chances/grounders.ts';
import { pool } from '../chances/trust/answers.ts';
import { type CrossValidation, crossValidation } from '../chances/trust/cross-validate.ts';
import { type Quality, qualityOf, reachResiduals } from '../chances/trust/quality.ts';
import { BALL_KINDS } from '../diamond/play-codes.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import type { BalanceGroup } from '../ledger/balance.ts';
import { isLargeShift } from '../ledger/large-shift.ts';
import { FitFailure } from '../models/fit-record.ts';
import type { FittedModel } from '../models/fitted-model.ts';
import { termLabel } from '../models/terms.ts';
import type { Progress } from '../progress.ts';
import { unpackBuild } from './build-file.ts';
import { fitOnThreads, threadsFor } from './fits/fit-on-threads.ts';
import { type DataShares, readDataShares } from './trust/data-shares.ts';
import type { BalanceView, ModelSummary, TrustEvidence } from './trust/evidence.ts';
import { judge, type Verdict } from './trust/verdict.ts';

export interface TrustOptions {
  readonly book: string;
  /** Parts that the games are dealt into, 2 or more. */
  readonly folds: number;
  readonly seed: number;
  /** Threads that models are fitted on; as many as the machine runs unless given, one for a small book. */
  readonly threads?: number;
}

export interface TrustEffects {
  readonly progress: Progress;
  readonly now: () => Date;
}

export interface TrustReport extends TrustEvidence {
  readonly verdict: Verdict;
  /** What it took to find out. */
  readonly seconds: number;
}

/** Says whether the numbers of a book's last build can be used. Computed afresh; nothing is stored. */
export async function trust(options: TrustOptions, effects: TrustEffects): Promise<TrustReport> {
  const began = effects.now().getTime();
  const book = await openBook(options.book, { access: 'read', command: 'trust', now: effects.now });
  try {
    const build = await unpackBuild((name) => readModelFile(book, name));
    const models = build.models.grounders;
    if (models === null) throw nothingToTest(options.book);
    const grounders = selectGrounders(await readPlayTable(book));
    const data = await readDataShares(book.store);
    const games = countGames(grounders, options);
    const threads = options.threads ?? threadsFor(grounders.table.count);
    const fitting = crossValidation(grounders, models, options);
    const tested = await validateOrExplain(() => fitOnThreads(fitting, threads, effects.progress));
    const evidence = {
      book: options.book,
      grounders: grounders.count,
      games,
      folds: options.folds,
      models: listGrounderFits(models).map(summarise),
      quality: qualities(tested),
      travel: tested.travel,
      residuals: tested.reach
        .filter(({ count }) => count > 0)
        .map((answers) => ({ position: answers.position, cells: reachResiduals(answers) })),
      balance: build.groups
        .filter(({ kind }) => BALL_KINDS[kind] === 'ground')
        .map((group) => viewBalance(group, data)),
      data,
    };
    return { ...evidence, verdict: judge(evidence), seconds: (effects.now().getTime() - began) / 1000 };
  } finally {
    await book.close();
  }
}

function nothingToTest(book: string): ExpectedFailure {
  return new ExpectedFailure(
    'data',
    `The book ${book} holds no grounders: there is nothing that trust can test.`,
    'Read in files with grounders and build again.',
  );
}

function countGames({ row, table }: Grounders, { book, folds }: TrustOptions): number {
  const games = new Set(Array.from(row, (r) => table.game[r])).size;
  if (games >= folds) return games;
  throw new ExpectedFailure(
    'data',
    `The book ${book} has grounders of ${games} games, which cannot be dealt into ${folds} folds.`,
    'Read in more games, or ask for fewer folds with --folds.',
  );
}

async function validateOrExplain(validate: () => Promise<CrossValidation>): Promise<CrossValidation> {
  try {
    return await validate();
  } catch (thrown) {
    if (!(thrown instanceof FitFailure)) throw thrown;
    throw new ExpectedFailure(
      'data',
      `With some of the games left out, ${thrown.message}.`,
      'There may be too few plays: read in more, or use more folds, so that each leaves out less.',
      {},
      { cause: thrown },
    );
  }
}

function summarise({ design, edf, record, coefficients }: FittedModel): ModelSummary {
  const terms = design.spec.terms.map(termLabel);
  return { name: design.spec.name, terms, coefficients: coefficients.length, edf, record };
}

function qualities({ opening, set, reach, promise, finish }: CrossValidation): Quality[] {
  const whole = [opening, set].filter(({ count }) => count > 0);
  const byPosition = [reach, promise, finish].flatMap((parts) => {
    const answered = parts.filter(({ count }) => count > 0);
    return answered.length === 0 ? [] : [pool(answered), ...answered];
  });
  return [...whole, ...byPosition].map(qualityOf);
}

function viewBalance({ season, grade, plays, opening, set, gathered }: BalanceGroup, data: DataShares): BalanceView {
  const shifts = { opening, set, gathered };
  const own = data.information.find((each) => each.season === season && each.grade === GRADES[grade]);
  const large = (['opening', 'set', 'gathered'] as const).filter((mark) =>
    isLargeShift(shifts[mark], own?.[mark] ?? 0),
  );
  return { season, grade: GRADES[grade], plays, ...shifts, large };
}
