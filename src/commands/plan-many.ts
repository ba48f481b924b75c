import { existsSync, readFileSync } from 'node:fs';
import { BUILD_ID, readInfo } from '../book/book-info.ts';
import { openBook } from '../book/open-book.ts';
import { programVersion } from '../book/program-version.ts';
import { readNames } from '../book/read-play-table.ts';
import type { PlayTable } from '../chances/play-table.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import type { Jobs, Outcome, Unit } from '../jobs/jobs.ts';
import { openPostgresQueue } from '../jobs/postgres-queue.ts';
import { startQueueJobs } from '../jobs/queue-jobs.ts';
import { startThreadJobs } from '../jobs/thread-jobs.ts';
import { workerFileBeside } from '../jobs/thread-pool.ts';
import type { Progress } from '../progress.ts';
import { namedQuestion } from './plan.ts';
import { fingerprintOf, type PlanInputs, readPlanInputs } from './plan-inputs.ts';
import { openPlanJournals } from './plans/plan-journals.ts';
import { type KeptPlan, readPlans } from './plans/plan-tables.ts';
import {
  type BatchQuestion,
  type BatterAtSide,
  type BatterQuestions,
  batterUnits,
  isAskedAlike,
  opposingBatters,
  planId,
  planUnits,
  type SharedQuestion,
  usualSide,
} from './plans/plan-units.ts';
import type { BatterAnswer, PlanAnswered } from './plans/plan-worker.ts';
import { keepPlannedRoom } from './plans/planned-room.ts';
import { shareInputs } from './plans/share-inputs.ts';
import type { Situation } from './plans/situations.ts';

export interface PlanManyOptions extends SharedQuestion {
  readonly book: string;
  /** Everybody who bats for another club; or a line-up: ids or names parted by commas, or a file with one a line. */
  readonly batters: 'all' | { readonly lineup: string };
  readonly situations: readonly Situation[];
  /** Threads of this process. */
  readonly threads: number;
  /** Address of a queue whose workers do the work in their place. */
  readonly queue?: string | undefined;
  /** Make the plans again that the book has for its present build. */
  readonly again?: boolean | undefined;
}

export interface PlanManyEffects {
  readonly progress: Progress;
  readonly now: () => Date;
  /** Says something to the user while the work goes on. */
  readonly notify: (line: string) => void;
  readonly signal?: AbortSignal | undefined;
}

export interface PlanManyReport {
  /** In the order of the batters, each in the order of the situations; without those that failed. */
  readonly plans: readonly KeptPlan[];
  /** Plans that were made now; the others were in the book. */
  readonly made: number;
  readonly failures: readonly { readonly question: BatchQuestion; readonly why: string }[];
  readonly names: ReadonlyMap<string, string>;
  /** Last season of the book. */
  readonly season: number;
}

/**
 * Plans against many batters, kept in the book. What is made is on the disk at once: a run that is stopped, or killed, is taken up where it was by
 * asking the same again. The book is open only to read what plans rest on, and at the end to take the plans in.
 * @throws ExpectedFailure `data`: an unknown batter or club; `book`: not built, busy; `usage`: the queue cannot be reached
 */
export async function planMany(options: PlanManyOptions, effects: PlanManyEffects): Promise<PlanManyReport> {
  const { inputs, names, buildId, kept } = await readAll(options, effects);
  const { table } = inputs;
  const { shared, batters } = settle(options, table, names);
  const units = planUnits(batters, options.situations, shared);
  const inBook = (key: string) => options.again !== true && kept.get(key)?.buildId === buildId;
  const wanted = units.filter(({ key }) => !inBook(key));
  const failures: { question: BatchQuestion; why: string }[] = [];
  if (wanted.length > 0) {
    const journals = openPlanJournals(options.book, buildId, effects.now);
    try {
      const { current } = journals;
      const rest = wanted.filter(({ key }) => !current.outcomes.has(key));
      effects.progress.stage('Plans', wanted.length);
      let done = wanted.length - rest.length;
      effects.progress.advance(done);
      if (rest.length > 0) {
        const jobs = await startJobs(options, effects, inputs, current.batch);
        try {
          for await (const outcome of eachPlan(jobs, rest, effects.signal)) {
            current.add(outcome);
            done += 1;
            effects.progress.advance(done);
          }
        } finally {
          await jobs.close();
        }
      }
      effects.progress.finish();
      for (const { key, question } of wanted) {
        const outcome = current.outcomes.get(key)!;
        if ('failure' in outcome) failures.push({ question, why: outcome.failure });
      }
      await keep(options, effects, journals, { inputs, names, buildId, shared });
    } finally {
      journals.close();
    }
  }
  const book = await openBook(options.book, { access: 'read', command: 'plan', now: effects.now });
  try {
    const all = await readPlans(
      book.store,
      units.map(({ key }) => key),
    );
    const failed = new Set(failures.map(({ question }) => question));
    return {
      plans: units.flatMap(({ key, question }) => (failed.has(question) ? [] : (all.get(key) ?? []))),
      made: wanted.length - failures.length,
      failures,
      names,
      season: table.season.reduce((last, season) => Math.max(last, season), 0),
    };
  } finally {
    await book.close();
  }
}

async function readAll(options: PlanManyOptions, { now }: PlanManyEffects) {
  const book = await openBook(options.book, { access: 'read', command: 'plan', now });
  try {
    const inputs = await readPlanInputs(book);
    return {
      inputs,
      names: await readNames(book),
      buildId: (await readInfo(book.store, BUILD_ID))!,
      kept: await readPlans(book.store),
    };
  } finally {
    await book.close();
  }
}

/** Outcomes of plans as they come, a batter's together; a unit that failed is the failure of all its plans. */
async function* eachPlan(
  jobs: Jobs<BatterQuestions, BatterAnswer>,
  plans: readonly Unit<BatchQuestion>[],
  signal: AbortSignal | undefined,
): AsyncGenerator<Outcome<PlanAnswered>> {
  const units = batterUnits(plans);
  const questions = new Map(units.map(({ key, question }) => [key, question]));
  for await (const outcome of jobs.run(units, signal)) {
    if ('answer' in outcome) yield* outcome.answer;
    else for (const question of questions.get(outcome.key)!) yield { key: planId(question), failure: outcome.failure };
  }
}

async function startJobs(
  options: PlanManyOptions,
  effects: PlanManyEffects,
  inputs: PlanInputs,
  batch: string,
): Promise<Jobs<BatterQuestions, BatterAnswer>> {
  if (options.queue === undefined) {
    const workerFile = workerFileBeside(import.meta.url, 'plans/plan-worker');
    return startThreadJobs({ workerFile, workerData: shareInputs(inputs), threads: options.threads });
  }
  const queue = await openPostgresQueue(options.queue);
  return startQueueJobs({
    queue,
    grounds: fingerprintOf(inputs, programVersion()),
    batch,
    onNobody: () =>
      effects.notify(
        'Nobody has answered yet. On each machine that is to help: leatherbook work --queue ADDRESS --book DIR, with this book or a copy of it.',
      ),
    onLeft: (why) =>
      effects.notify(
        `The plans not yet made are still in the queue, and workers may go on with them: ${why instanceof Error ? why.message : why}`,
      ),
  });
}

interface KeepWith {
  readonly inputs: PlanInputs;
  readonly names: ReadonlyMap<string, string>;
  readonly buildId: string;
  readonly shared: SharedQuestion;
}

/** Takes the plans in, and what all of the club's plans that were asked for in this way would have been worth. */
async function keep(
  { book: dir, defence }: PlanManyOptions,
  { now }: PlanManyEffects,
  journals: ReturnType<typeof openPlanJournals>,
  { inputs, names, buildId, shared }: KeepWith,
): Promise<void> {
  const book = await openBook(dir, { access: 'write', command: 'plan', now });
  try {
    await journals.keepAll(book);
    const alike = [...(await readPlans(book.store)).values()].filter(
      (plan) => plan.buildId === buildId && isAskedAlike(plan.question, shared),
    );
    await keepPlannedRoom(book, inputs, alike, defence, names);
  } finally {
    await book.close();
  }
}

/** Whom to plan against, and the rest of the question with ids in the place of names. Nothing else of the options gets into the plans' ids. */
function settle(options: PlanManyOptions, table: PlayTable, names: ReadonlyMap<string, string>) {
  const { defence, rule, depth, hold, outfield, anywhere, ownMen, pitcher, safeS, seed } = options;
  const asked = { defence, rule, depth, hold, outfield, anywhere, ownMen, pitcher, safeS, seed };
  const known = (batter: string) => namedQuestion({ data: { table } }, names, { ...asked, batter, outs: 0, bases: 0 });
  const shared: SharedQuestion = { ...asked, pitcher: known(table.people[0] ?? '').pitcher };
  return { shared, batters: batters() };

  function batters(): BatterAtSide[] {
    if (options.batters === 'all') {
      const opponents = opposingBatters(table, defence, (id) => names.get(id) ?? id);
      if (opponents.length > 0) return opponents;
      throw new ExpectedFailure('data', `Nobody in the book bats against ${defence}.`, 'Name a line-up with --lineup.');
    }
    return lineupWords(options.batters.lineup).map((word) => {
      const [, who, side] = /^(.*?)(?::([LR]))?$/.exec(word)!;
      const { batter } = known(who!);
      return { batter, side: (side as 'L' | 'R' | undefined) ?? usualSide(table, batter) };
    });
  }
}

/** Ids or names of a line-up in its order: the lines of a file, or words parted by commas. */
function lineupWords(lineup: string): string[] {
  const text = existsSync(lineup) ? readFileSync(lineup, 'utf8').replaceAll(/#.*/g, '') : lineup.replaceAll(',', '\n');
  const words = text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');
  if (words.length > 0) return words;
  throw new ExpectedFailure(
    'usage',
    `The line-up ${lineup} names nobody.`,
    'Give ids or names parted by commas, or a file with one a line.',
  );
}
