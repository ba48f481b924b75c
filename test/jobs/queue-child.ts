/** A worker process of its own: `queue-child.ts URL GROUNDS`, until it is killed. */
import { openPostgresQueue } from '../../src/jobs/postgres-queue.ts';
import { serveQueue } from '../../src/jobs/serve-queue.ts';
import { answer, type Sum } from './adding-worker.ts';

const [url, grounds] = process.argv.slice(2) as [string, string];
const queue = await openPostgresQueue(url);
await serveQueue<Sum, { sum: number }>({
  queue,
  grounds,
  answer: async ({ key, question }) => ({ key, ...(await answer(question)) }),
  atOnce: 1,
  signal: new AbortController().signal,
  pollMs: 20,
});
