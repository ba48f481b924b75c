import { openBook } from '../book/open-book.ts';
import { programVersion } from '../book/program-version.ts';
import { openPostgresQueue } from '../jobs/postgres-queue.ts';
import { serveQueue } from '../jobs/serve-queue.ts';
import { startThreadPool, workerFileBeside } from '../jobs/thread-pool.ts';
import type { Progress } from '../progress.ts';
import { fingerprintOf, readPlanInputs } from './plan-inputs.ts';
import type { BatterQuestions } from './plans/plan-units.ts';
import type { BatterAnswer } from './plans/plan-worker.ts';
import { shareInputs } from './plans/share-inputs.ts';

export interface WorkOptions {
  /** The book that is asked about, or a copy of it: the same build. */
  readonly book: string;
  /** Address of the queue. */
  readonly queue: string;
  readonly threads: number;
  /** Seconds without work after which to end; none: only the signal ends it. */
  readonly idleS?: number | undefined;
}

export interface WorkEffects {
  readonly progress: Progress;
  readonly now: () => Date;
  readonly notify: (line: string) => void;
  /** Ends the work when what has been begun is answered. */
  readonly signal: AbortSignal;
}

/**
 * Answers the plans that a queue asks for. The book is read once, at the beginning, and not kept open.
 * @throws ExpectedFailure `book`: not built, busy; `usage`: the queue cannot be reached
 */
export async function work(options: WorkOptions, effects: WorkEffects): Promise<{ readonly answered: number }> {
  const book = await openBook(options.book, { access: 'read', command: 'work', now: effects.now });
  const inputs = await readPlanInputs(book).finally(() => book.close());
  const queue = await openPostgresQueue(options.queue);
  const pool = startThreadPool<BatterQuestions, BatterAnswer>({
    workerFile: workerFileBeside(import.meta.url, 'plans/plan-worker'),
    workerData: shareInputs(inputs),
    threads: options.threads,
  });
  let done = 0;
  effects.progress.stage('Plans answered', 0);
  try {
    await serveQueue<BatterQuestions, BatterAnswer>({
      queue,
      grounds: fingerprintOf(inputs, programVersion()),
      answer: (unit) => pool.answer(unit),
      atOnce: options.threads,
      signal: effects.signal,
      onOutcome: (outcome) => {
        done += 'answer' in outcome ? outcome.answer.length : 0;
        effects.progress.advance(done);
      },
      onStrangers: () =>
        effects.notify(
          `The queue has work for another build than that of ${options.book}, or for another release of Leatherbook: it is left to others. Copy the book again if it should be this one.`,
        ),
      ...(options.idleS === undefined ? {} : { idleMs: options.idleS * 1000 }),
    });
    return { answered: done };
  } finally {
    effects.progress.finish();
    await pool.close();
    await queue.close();
  }
}
