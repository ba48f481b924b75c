import { availableParallelism } from 'node:os';
import { startThreadPool, type ThreadPool, workerFileBeside } from '../../jobs/thread-pool.ts';
import { FitFailure } from '../../models/fit-record.ts';
import { type FitQuestion, type FitTask, type Fitting, fitHere, type TaskFit, withRows } from '../../models/fitting.ts';
import type { Progress } from '../../progress.ts';
import type { FitReply } from './fit-worker.ts';

/** With fewer plays than this the fits are done before a second thread has loaded its program. */
const FEWEST_PLAYS = 4000;

/** Threads for the fits of a book of this many plays when nobody says how many: those that the machine runs at once. */
export function threadsFor(plays: number): number {
  return plays < FEWEST_PLAYS ? 1 : availableParallelism();
}

/**
 * Does a fitting's tasks on several threads, to the last bit as on one: each fit is the work of one thread, and what is made
 * of the fits is done here. With one thread no other is started.
 * @throws FitFailure when a fit does not arrive: of several, the first in the order of the tasks
 */
export async function fitOnThreads<Result>(
  fitting: Fitting<Result>,
  threads: number,
  progress: Progress,
): Promise<Result> {
  if (threads <= 1) return fitHere(fitting, progress);
  const workerFile = workerFileBeside(import.meta.url, 'fit-worker');
  const pool = startThreadPool<FitQuestion, FitReply>({ workerFile, threads });
  try {
    let done = 0;
    let step = fitting.next();
    while (step.done !== true) {
      progress.stage('fitting', done + step.value.length);
      const fits = await fitAll(step.value, pool, () => {
        done += 1;
        progress.advance(done);
      });
      step = fitting.next(fits);
    }
    progress.finish();
    return step.value;
  } finally {
    await pool.close();
  }
}

/** Fits in the order of the tasks. Each thread takes the next task when it is free, and only then are its rows made. */
async function fitAll(
  tasks: readonly FitTask[],
  pool: ThreadPool<FitQuestion, FitReply>,
  onFitted: () => void,
): Promise<TaskFit[]> {
  const replies = new Array<FitReply>(tasks.length);
  const rest = tasks.entries();
  const keepBusy = async () => {
    for (const [k, task] of rest) {
      const outcome = await pool.answer({ key: task.spec.name, question: withRows(task) });
      if ('failure' in outcome) throw new Error(`model ${outcome.key} was not fitted: ${outcome.failure}`);
      replies[k] = outcome.answer;
      onFitted();
    }
  };
  await Promise.all(Array.from({ length: pool.threads }, keepBusy));
  return replies.map((reply) => {
    if ('record' in reply) throw new FitFailure(reply.model, reply.record);
    return reply.fit;
  });
}
