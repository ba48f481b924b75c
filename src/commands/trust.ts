import { openBook } from '../book/open-book.ts';
import { readPlayTable } from '../book/read-play-table.ts';
import { readModelFile } from '../book/replace-results.ts';
import { GRADES } from '../chances/grades.ts';
import type { Grounders } from '../chances/grounders.ts';
import { airTrial } from '../chances/trust/air-trial.ts';
import { type Answers, pool } from '../chances/trust/answers.ts';
import { type CrossValidation, crossValidation } from '../chances/trust/cross-validate.ts';
import type { FoldSettings } from '../chances/trust/folds.ts';
import { type Quality, qualityOf, reachResiduals } from '../chances/trust/quality.ts';
import { turnTrial } from '../chances/trust/turn-trial.ts';
import { BALL_KINDS } from '../diamond/play-codes.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import type { BalanceGroup } from '../ledger/balance.ts';
import { isLargeShift } from '../ledger/large-shift.ts';
import { hitTrial } from '../ledger/runs/hit-trial.ts';
import { FitFailure } from '../models/fit-record.ts';
import { type Fitting, specOf, type TaskFit, together } from '../models/fitting.ts';
import { termLabel } from '../models/terms.ts';
import type { Progress } from '../progress.ts';
import { unpackBuild } from './build-file.ts';
import { fitOnThreads, threadsFor } from './fits/fit-on-threads.ts';
import { type BookModels, type BookPlays, listBookFits, selectPlays } from './score-book.ts';
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
    const plays = selectPlays(await readPlayTable(book));
    const { grounders } = plays;
    if (build.models.grounders === null) throw nothingToTest(options.book);
    const data = await readDataShares(book.store);
    const games = countGames(grounders, options);
    const threads = options.threads ?? threadsFor(grounders.table.count);
    const fits = listBookFits(build.models);
    const progress = oneStage(effects.progress, fits.length * (2 * options.folds + 1));
    const { tested, others } = await validateOrExplain(() =>
      fitOnThreads(trials(plays, build.models, options), threads, progress),
    );
    const evidence = {
      book: options.book,
      grounders: grounders.count,
      games,
      folds: options.folds,
      models: fits.map(summarise),
      quality: [...qualities(tested), ...others.map(qualityOf)],
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

interface Trials {
  readonly tested: CrossValidation;
  /** Answers about turns, balls in the air and hits. */
  readonly others: readonly Answers[];
}

/** All models on games that they have not seen. */
function* trials({ grounders, air, table }: BookPlays, models: BookModels, folds: FoldSettings): Fitting<Trials> {
  const [tested, turn, aloft, hits] = yield* together([
    crossValidation(grounders, models.grounders!, folds),
    models.turn === null ? together([]) : turnTrial(grounders, models.turn, folds),
    models.air === null ? together([]) : airTrial(air, models.air, folds),
    models.hits === null ? together([]) : hitTrial(table, models.hits, folds),
  ]);
  return { tested, others: [...turn, ...withAll(aloft), ...hits].filter(({ count }) => count > 0) };
}

/** Before the answers of the positions to one question those of all together. */
function withAll(parts: readonly Answers[]): Answers[] {
  return [...new Set(parts.map(({ question }) => question))].flatMap((question) => {
    const own = parts.filter((each) => each.question === question);
    return own.length === 1 ? own : [pool(own), ...own];
  });
}

/** All fits as one stage; some finishes are fitted twice, which nobody can know before. */
function oneStage(progress: Progress, total: number): Progress {
  progress.stage('fitting', total);
  return {
    stage() {},
    advance: (done) => progress.advance(Math.min(done, total)),
    finish: () => progress.finish(),
  };
}

async function validateOrExplain(validate: () => Promise<Trials>): Promise<Trials> {
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

function summarise(fit: TaskFit): ModelSummary {
  const { name, terms } = specOf(fit);
  const coefficients = fit.design.width * ('spec' in fit ? fit.coefficients.length : 1);
  return { name, terms: terms.map(termLabel), coefficients, edf: fit.edf, record: fit.record };
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
