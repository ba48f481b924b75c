import { setTimeout as pause } from 'node:timers/promises';
import { answersQueue, messageId, unitsQueues } from './batch-queues.ts';
import type { Outcome, Unit } from './jobs.ts';
import type { MessageQueue } from './message-queue.ts';

export interface ServeOptions<Question, Answer> {
  readonly queue: MessageQueue;
  /** Fingerprint of this worker's grounds; batches with others are left to others. */
  readonly grounds: string;
  readonly answer: (unit: Unit<Question>) => Promise<Outcome<Answer>>;
  /** Units answered at the same time. */
  readonly atOnce: number;
  /** Ends the work: what has been claimed is answered before. */
  readonly signal: AbortSignal;
  readonly onOutcome?: (outcome: Outcome<Answer>) => void;
  /** Told once, when there are batches and all of them have other grounds. */
  readonly onStrangers?: () => void;
  /** Ends when there has been nothing to do for so long; without it only `signal` does. */
  readonly idleMs?: number;
  readonly pollMs?: number;
}

/**
 * Answers units of any batch with these grounds until the signal comes; returns how many. A unit's answer is in its queue before
 * the unit is finished: killed in between, the unit is answered again and the second answer dropped.
 */
export async function serveQueue<Question, Answer>(options: ServeOptions<Question, Answer>): Promise<number> {
  const { queue, grounds, answer, atOnce, signal, onOutcome, onStrangers, idleMs = Infinity, pollMs = 300 } = options;
  let answered = 0;
  let toldOfStrangers = false;

  const answerOne = async (): Promise<boolean> => {
    const names = await queue.names();
    const ours = unitsQueues(names, grounds);
    if (ours.length === 0 && unitsQueues(names).length > 0 && !toldOfStrangers) {
      toldOfStrangers = true;
      onStrangers?.();
    }
    for (const name of ours) {
      const [taken] = await queue.take<Unit<Question>>(name, 1);
      if (taken === undefined) continue;
      const outcome = await answer(taken.data);
      const answers = answersQueue(name);
      await queue.put(answers, [{ id: messageId(answers, outcome.key), data: outcome }]);
      await queue.finish(name, [taken.id]);
      answered += 1;
      onOutcome?.(outcome);
      return true;
    }
    return false;
  };

  const serve = async () => {
    let idleSince = performance.now();
    while (!signal.aborted && performance.now() - idleSince < idleMs) {
      if (await answerOne()) idleSince = performance.now();
      else await pause(pollMs, undefined, { signal }).catch(() => {});
    }
  };
  await Promise.all(Array.from({ length: atOnce }, serve));
  return answered;
}
