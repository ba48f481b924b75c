import { startThreadPool, workerFileBeside } from '../../jobs/thread-pool.ts';
import { doRatingTask, type RatingTask, type TaskAnswer, type TaskQuestion } from './rating-tasks.ts';
import type { RatingQuestion } from './rating-worker.ts';

/** Who does the tasks of ratings and standard errors. */
export interface RatingHands {
  do<Task extends RatingTask>(task: Task, question: TaskQuestion<Task>): Promise<TaskAnswer<Task>>;
  close(): Promise<void>;
}

/** So many threads, besides the caller's; with one thread no other is started, and a task is done where it is asked for. No digit depends on it. */
export function startRatingHands(threads: number): RatingHands {
  if (threads <= 1) return { do: async (task, question) => doRatingTask(task, question), close: async () => {} };
  const workerFile = workerFileBeside(import.meta.url, 'rating-worker');
  const pool = startThreadPool<RatingQuestion, TaskAnswer<RatingTask>>({ workerFile, threads });
  let asked = 0;
  return {
    async do<Task extends RatingTask>(task: Task, question: TaskQuestion<Task>) {
      asked += 1;
      const outcome = await pool.answer({ key: `${task} ${asked}`, question: { task, question } });
      if ('failure' in outcome) throw new Error(`task ${outcome.key} was not done: ${outcome.failure}`);
      return outcome.answer as TaskAnswer<Task>;
    },
    close: () => pool.close(),
  };
}
