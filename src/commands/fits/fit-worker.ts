import { replying } from '../../jobs/thread-pool.ts';
import { FitFailure, type FitRecord } from '../../models/fit-record.ts';
import { type FitQuestion, fitTask, type TaskFit } from '../../models/fitting.ts';

/** A fit, or the record of one that did not arrive: an error would lose its record on the way between threads. */
export type FitReply = { readonly fit: TaskFit } | { readonly model: string; readonly record: FitRecord };

/** Runs on a thread of its own (thread-pool.ts). */
export const answer = replying((question: FitQuestion): FitReply => {
  try {
    return { fit: fitTask(question) };
  } catch (thrown) {
    if (thrown instanceof FitFailure) return { model: question.spec.name, record: thrown.record };
    throw thrown;
  }
});
