import { checkKeys, type Jobs, type Outcome } from './jobs.ts';
import { startThreadPool, type ThreadPoolOptions } from './thread-pool.ts';

/** Units handed to the pool for each thread: one at work and one waiting, so that no thread waits for us. */
const AHEAD = 2;

/** Jobs on threads of this process. */
export function startThreadJobs<Question, Answer>(options: ThreadPoolOptions): Jobs<Question, Answer> {
  const pool = startThreadPool<Question, Answer>(options);
  return {
    async *run(units, signal) {
      checkKeys(units);
      const pending = new Map<string, Promise<Outcome<Answer>>>();
      const ending = new AbortController();
      const either = signal === undefined ? ending.signal : AbortSignal.any([signal, ending.signal]);
      const rest = units.values();
      try {
        for (;;) {
          signal?.throwIfAborted();
          while (pending.size < AHEAD * pool.threads) {
            const next = rest.next();
            if (next.done === true) break;
            pending.set(next.value.key, pool.answer(next.value, either));
          }
          if (pending.size === 0) return;
          const outcome = await Promise.race(pending.values());
          pending.delete(outcome.key);
          yield outcome;
        }
      } finally {
        // Whoever breaks off leaves units at work; they are stopped, and their rejections are nobody's news.
        for (const promise of pending.values()) promise.catch(() => {});
        ending.abort();
      }
    },
    close: () => pool.close(),
  };
}
