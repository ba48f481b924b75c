import { INFO_TABLE, SETTINGS_TABLE } from './schema.ts';
import { quoteText } from './sql-text.ts';
import type { Store } from './store.ts';

/** Key of the folder under `models/` that belongs to the results in the book. */
export const BUILD_ID = 'build_id';

/** One line of what the book says about itself, null when it says nothing under that key. */
export async function readInfo(store: Store, key: string): Promise<string | null> {
  const rows = await store.rows(`SELECT value FROM ${INFO_TABLE} WHERE key = ${quoteText(key)}`);
  return (rows[0]?.value as string | undefined) ?? null;
}

export async function writeInfo(store: Store, key: string, value: string): Promise<void> {
  await store.run(`DELETE FROM ${INFO_TABLE} WHERE key = ${quoteText(key)}`);
  await store.run(`INSERT INTO ${INFO_TABLE} VALUES (${quoteText(key)}, ${quoteText(value)})`);
}

/** The settings of the last build by key; empty before the first. */
export async function readSettings(store: Store): Promise<Record<string, string>> {
  const rows = await store.rows(`SELECT key, value FROM ${SETTINGS_TABLE} ORDER BY key`);
  return Object.fromEntries(rows.map(({ key, value }) => [key as string, value as string]));
}
