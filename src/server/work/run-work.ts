/**
 * A process of its own for one piece of long work, so that it can be killed at any moment without harm to the pages; the
 * book's results are replaced in one step at the end. It ends with the server.
 */
import { ExpectedFailure } from '../../expected-failure.ts';
import type { Progress } from '../../progress.ts';
import { runTask } from './run-task.ts';
import type { WorkMessage, WorkOrder } from './work-messages.ts';

const TELL_EVERY_MS = 100;

const tell = (message: WorkMessage) =>
  new Promise<void>((resolve) => {
    process.send?.(message, () => resolve());
  });

function toldProgress(): Progress {
  let toldAt = 0;
  return {
    stage: (label, total) => void tell({ type: 'stage', label, total }),
    advance(done) {
      const now = performance.now();
      if (now - toldAt < TELL_EVERY_MS) return;
      toldAt = now;
      void tell({ type: 'advance', done });
    },
    finish() {},
  };
}

process.on('disconnect', () => process.exit(1));
const order = JSON.parse(process.argv[2] ?? '') as WorkOrder;
try {
  await tell({ type: 'done', result: await runTask(order, { progress: toldProgress(), now: () => new Date() }) });
} catch (thrown) {
  const isExpected = thrown instanceof ExpectedFailure;
  const message = thrown instanceof Error ? thrown.message : String(thrown);
  const remedy = isExpected ? thrown.remedy : 'This is a bug of Leatherbook: please report it with this sentence.';
  await tell({ type: 'failed', message, remedy });
}
process.disconnect();
