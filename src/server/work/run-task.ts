import { availableParallelism } from 'node:os';
import { readSettings } from '../../book/book-info.ts';
import { openBook } from '../../book/open-book.ts';
import type { DrawWindow } from '../../chances/even-draws.ts';
import { build } from '../../commands/build.ts';
import { planMany } from '../../commands/plan-many.ts';
import { parseSituations, USUAL_SITUATIONS } from '../../commands/plans/situations.ts';
import { trust } from '../../commands/trust.ts';
import type { RunMode } from '../../ledger/runs/stakes.ts';
import type { Progress } from '../../progress.ts';
import type { WorkOrder } from './work-messages.ts';

interface Effects {
  readonly progress: Progress;
  readonly now: () => Date;
}

const FOLDS = 5;

/** Does the work; a build keeps the settings of the last one. */
export async function runTask({ task, book, defence }: WorkOrder, effects: Effects): Promise<unknown> {
  if (task === 'plans') return await planForAll(book, defence ?? '', effects);
  if (task === 'trust') return await trust({ book, folds: FOLDS, seed: 1 }, effects);
  const { runs = 'flat', window = 'rolling', draws = '24', seed = '1', replicates } = await lastSettings(book, effects);
  return await build(
    {
      book,
      runs: runs as RunMode,
      window: window as DrawWindow,
      draws: Number(draws),
      seed: Number(seed),
      ...(replicates === undefined ? {} : { replicates: Number(replicates) }),
    },
    effects,
  );
}

/** Against everybody who bats for another club, as `plan --all` does when it is told no more; the plans are kept in the book. */
async function planForAll(book: string, defence: string, effects: Effects): Promise<{ readonly made: number }> {
  const { made } = await planMany(
    {
      book,
      batters: 'all',
      defence,
      situations: parseSituations(USUAL_SITUATIONS)!,
      threads: availableParallelism(),
      rule: 'two-a-side',
      seed: 1,
    },
    { ...effects, notify: () => {} },
  );
  return { made };
}

async function lastSettings(dir: string, { now }: Effects): Promise<Record<string, string>> {
  const book = await openBook(dir, { access: 'read', command: 'leatherbook serve', now });
  try {
    return await readSettings(book.store);
  } finally {
    await book.close();
  }
}
