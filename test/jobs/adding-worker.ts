import { appendFileSync, existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { isMainThread } from 'node:worker_threads';
import { replying } from '../../src/jobs/thread-pool.ts';

/** What the contract tests ask. */
export interface Sum {
  readonly terms: readonly number[];
  /** Folder in which each answering is noted down, a line each. */
  readonly notes: string;
  readonly waitMs?: number;
  readonly trouble?: 'refuse' | 'die once' | 'die always';
}

/** Ends whatever runs this: the process as a kill from outside would, a thread by itself. */
function die(): void {
  if (isMainThread) process.kill(process.pid, 'SIGKILL');
  else process.exit(1);
}

/** Adds the terms, or gets into the trouble asked for. */
export const answer = replying(async ({ terms, notes, waitMs = 0, trouble }: Sum) => {
  const sum = terms.reduce((total, term) => total + term, 0);
  if (trouble === 'refuse') throw new Error(`will not add ${terms.join(' and ')}`);
  if (trouble !== undefined) {
    const mark = join(notes, `died-${sum}`);
    const first = !existsSync(mark);
    if (first) writeFileSync(mark, '');
    if (first || trouble === 'die always') die();
    if (trouble === 'die always') await pause(60_000);
  }
  await pause(waitMs);
  appendFileSync(join(notes, 'answered'), `${sum}\n`);
  return { sum };
});
