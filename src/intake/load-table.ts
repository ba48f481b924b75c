import { INCOMING_TABLES, type IncomingTableName } from '../book/schema.ts';
import { quoteName } from '../book/sql-text.ts';
import type { Store } from '../book/store.ts';
import { judgeAgainstBook, judgeWithinLoad, removeReplaced } from './judge-keys.ts';
import { createSides, judgePlaySides } from './judge-sides.ts';
import { createSuspects, judgeStartsAgainstPlays, judgeTwoPlaces, SUSPECTS } from './judge-starts.ts';
import { candidates, countRows, keepVerdicts, stageName, verdicts } from './stage.ts';

/** The order in which tables are loaded: starts are checked against plays. */
export const LOAD_ORDER: readonly IncomingTableName[] = ['plays', 'starts', 'people', 'field_time'];

/**
 * Judges the rows of a staging table, one reason a row, and adds those that pass to the book. Call within a transaction.
 * @param staged the tables that this intake has staged
 */
export async function loadTable(
  store: Store,
  table: IncomingTableName,
  staged: ReadonlySet<IncomingTableName>,
  replace: boolean,
): Promise<void> {
  await keepVerdicts(store, table, 'rows', `SELECT rowid, fault FROM ${stageName(table)} WHERE fault IS NOT NULL`);
  if (table === 'plays') {
    await createSides(store, true);
    await judgePlaySides(store);
  }
  if (table === 'starts') {
    if (!staged.has('plays')) await createSides(store, false);
    await judgeStartsAgainstPlays(store, staged.has('plays'));
  }
  await judgeAgainstBook(store, table, replace);
  const bookHasRows = (await countRows(store, `(SELECT 1 FROM ${table} LIMIT 1)`)) > 0;
  if (table === 'starts') {
    await createSuspects(store, bookHasRows);
    await judgeWithinLoad(store, table, SUSPECTS);
    await judgeTwoPlaces(store, bookHasRows);
  } else await judgeWithinLoad(store, table);
  if (replace && bookHasRows) await removeReplaced(store, table);
  const columns = INCOMING_TABLES[table].columns.map(({ name }) => quoteName(name)).join(', ');
  const before = await countRows(store, table);
  await store.run(`INSERT INTO ${table} (${columns}) SELECT ${columns} FROM ${candidates(table)}`);
  // What the engine says it has written is not taken on trust.
  const added = (await countRows(store, table)) - before;
  const wanted = (await countRows(store, stageName(table))) - (await countRows(store, verdicts(table)));
  if (added !== wanted) throw new Error(`${added} rows were added to ${table}, and ${wanted} should have been`);
}
