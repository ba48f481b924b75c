import { setTimeout as pause } from 'node:timers/promises';
import { answersQueue, messageId, unitsQueue } from './batch-queues.ts';
import { ATTEMPTS, checkKeys, type Jobs, type Outcome, type Unit, workerDied } from './jobs.ts';
import type { MessageQueue } from './message-queue.ts';

export interface QueueJobsOptions {
  readonly queue: MessageQueue;
  /** Fingerprint of all that answers depend on besides the question. */
  readonly grounds: string;
  /** Names this batch; the same name takes up a batch where a killed coordinator left it. */
  readonly batch: string;
  /** Seconds after which a worker that says nothing is taken for dead; longer than any unit takes. */
  readonly claimS?: number;
  /** Milliseconds between two looks at an empty queue. */
  readonly pollMs?: number;
  /** Called once when no outcome has come in this many milliseconds: perhaps nobody works. */
  readonly onNobody?: () => void;
  readonly nobodyMs?: number;
  /** Called when the signal ended the work and its queues could not be removed: workers may go on with what is in them. */
  readonly onLeft?: (why: unknown) => void;
}

/** A message in a queue of answers; one with a question comes from a unit that outlived all its workers. */
type Answered<Answer> = Outcome<Answer> | Unit<unknown>;

const PUT_AT_ONCE = 500;
const TAKEN_AT_ONCE = 100;
/** An answer is claimed only while the coordinator writes it down. */
const ANSWER_CLAIM_S = 30;
const FOREVER = 1_000_000;

/**
 * Jobs on whoever serves the queue (serve-queue.ts). A unit is handed out again when the claim of a worker that died has run out;
 * its answer counts once, because the queue drops a second message with the same id and `run` a second outcome.
 */
export function startQueueJobs<Question, Answer>(options: QueueJobsOptions): Jobs<Question, Answer> {
  const { queue, grounds, batch, claimS = 120, pollMs = 200, onNobody, nobodyMs = 20_000, onLeft } = options;
  const name = unitsQueue(grounds, batch);
  const answers = answersQueue(name);
  const removeAll = async () => {
    await queue.remove(name);
    await queue.remove(answers);
  };
  async function* outcomes(units: readonly Unit<Question>[], signal?: AbortSignal): AsyncGenerator<Outcome<Answer>> {
    await queue.create(answers, { claimS: Math.min(claimS, ANSWER_CLAIM_S), attempts: FOREVER });
    await queue.create(name, { claimS, attempts: ATTEMPTS, deadLetters: answers });
    for (let at = 0; at < units.length; at += PUT_AT_ONCE) {
      const some = units.slice(at, at + PUT_AT_ONCE);
      await queue.put(
        name,
        some.map((unit) => ({ id: messageId(name, unit.key), data: unit })),
      );
    }
    const missing = new Set(units.map(({ key }) => key));
    let quietMs = 0;
    while (missing.size > 0) {
      signal?.throwIfAborted();
      const taken = await queue.take<Answered<Answer>>(answers, TAKEN_AT_ONCE);
      for (const { data } of taken) {
        if (!missing.delete(data.key)) continue;
        yield 'question' in data ? workerDied(data.key) : data;
      }
      // Only now are they written down: a coordinator killed before gets them again.
      await queue.finish(
        answers,
        taken.map(({ id }) => id),
      );
      if (taken.length > 0) {
        quietMs = Number.NEGATIVE_INFINITY;
        continue;
      }
      await queue.expire();
      await pause(pollMs);
      quietMs += pollMs;
      if (quietMs >= nobodyMs) {
        quietMs = Number.NEGATIVE_INFINITY;
        onNobody?.();
      }
    }
    await removeAll();
  }

  return {
    async *run(units, signal) {
      checkKeys(units);
      try {
        yield* outcomes(units, signal);
      } catch (thrown) {
        if (!signal?.aborted) throw thrown;
        // Whoever said stop hears why he did, whatever else breaks while his word is kept.
        await removeAll().catch((why) => onLeft?.(why));
        throw signal.reason;
      }
    },
    close: () => queue.close(),
  };
}
