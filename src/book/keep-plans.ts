import type { Book } from './open-book.ts';
import { quoteText } from './sql-text.ts';
import type { ColumnTable } from './store.ts';

export interface KeptPlans {
  /** Rows of `plans`, with a column plan_id. */
  readonly plans: ColumnTable;
  /** Rows of `plan_starts`, each of one of these plans. */
  readonly starts: ColumnTable;
}

const IDS_AT_ONCE = 500;

/**
 * Puts plans into a book, each in the place of the one with its id, all or nothing; the same plans twice change nothing.
 * @throws ExpectedFailure of kind `book`: disk full, no permission
 */
export async function keepPlans({ store }: Book, { plans, starts }: KeptPlans): Promise<void> {
  const ids = plans.columns.find(({ name }) => name === 'plan_id')!.values as readonly string[];
  await store.transaction(async () => {
    for (let at = 0; at < ids.length; at += IDS_AT_ONCE) {
      const some = ids
        .slice(at, at + IDS_AT_ONCE)
        .map(quoteText)
        .join(', ');
      for (const table of ['plans', 'plan_starts']) await store.run(`DELETE FROM ${table} WHERE plan_id IN (${some})`);
    }
    await store.append('plans', plans);
    await store.append('plan_starts', starts);
  });
}
