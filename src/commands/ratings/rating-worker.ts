import { replying } from '../../jobs/thread-pool.ts';
import { doRatingTask, type RatingTask, type TaskQuestion } from './rating-tasks.ts';

/** What a thread is asked: one of the tasks by name. */
export interface RatingQuestion {
  readonly task: RatingTask;
  readonly question: TaskQuestion<RatingTask>;
}

/** Runs on a thread of its own (thread-pool.ts). */
export const answer = replying(({ task, question }: RatingQuestion) => doRatingTask(task, question));
