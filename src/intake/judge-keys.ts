import { INCOMING_TABLES, type IncomingTableName } from '../book/schema.ts';
import { quoteName } from '../book/sql-text.ts';
import type { Store } from '../book/store.ts';
import { FAULT_MARK } from './row-checks.ts';
import { candidates, countRows, keepVerdicts, REPEATED } from './stage.ts';

/** SQL text of the columns in which two rows of a table differ, NULL when in none. */
function differences(table: IncomingTableName, left: string, right: string): string {
  const { columns, key } = INCOMING_TABLES[table];
  const parts = columns
    .filter(({ name }) => !key.includes(name))
    .map(
      ({ name }) =>
        `CASE WHEN ${left}.${quoteName(name)} IS DISTINCT FROM ${right}.${quoteName(name)} THEN '${name}' END`,
    );
  return `nullif(concat_ws(', ', ${parts.join(', ')}), '')`;
}

function sameKey(table: IncomingTableName, left: string, right: string): string {
  return INCOMING_TABLES[table].key
    .map((name) => `${left}.${quoteName(name)} = ${right}.${quoteName(name)}`)
    .join(' AND ');
}

const keyList = (table: IncomingTableName) => INCOMING_TABLES[table].key.map(quoteName).join(', ');

/**
 * Rows that the book has already: the same in every column is repeated; another is a conflict, or with `replace` takes
 * the place of the book's.
 */
export async function judgeAgainstBook(store: Store, table: IncomingTableName, replace: boolean): Promise<void> {
  if ((await countRows(store, `(SELECT 1 FROM ${table} LIMIT 1)`)) === 0) return;
  const differ = differences(table, 's', 'b');
  const verdict = `coalesce('conflict${FAULT_MARK}' || ${differ}, '${REPEATED}')`;
  await keepVerdicts(
    store,
    table,
    'book',
    `SELECT s.row_no, ${verdict} FROM ${candidates(table)} s JOIN ${table} b ON ${sameKey(table, 's', 'b')}
    ${replace ? `WHERE ${differ} IS NULL` : ''}`,
  );
}

/** Takes out of the book what rows of the load replace; call just before they are added. Returns how many. */
export async function removeReplaced(store: Store, table: IncomingTableName): Promise<number> {
  return store.run(
    `DELETE FROM ${table} b WHERE EXISTS (SELECT 1 FROM ${candidates(table)} s WHERE ${sameKey(table, 's', 'b')})`,
  );
}

/**
 * Rows of the load with the key of an earlier row of the load: the same is repeated, another is set aside.
 * @param suspects table of the play_ids to look at, when a cheaper look has cleared the others
 */
export async function judgeWithinLoad(store: Store, table: IncomingTableName, suspects?: string): Promise<void> {
  const rows =
    suspects === undefined
      ? candidates(table)
      : `(SELECT c.* FROM ${candidates(table)} c SEMI JOIN ${suspects} USING (play_id))`;
  const crowded = `SELECT ${keyList(table)} FROM ${rows} GROUP BY ${keyList(table)} HAVING count(*) > 1`;
  await store.run(`CREATE OR REPLACE TEMP TABLE crowd AS
    SELECT c.*, min(c.row_no) OVER (PARTITION BY ${keyList(table)}) AS first_no
    FROM ${rows} c SEMI JOIN (${crowded}) USING (${keyList(table)})`);
  const differ = differences(table, 's', 'f');
  await keepVerdicts(
    store,
    table,
    'load',
    `SELECT s.row_no, coalesce('twice${FAULT_MARK}' || ${differ} || '${FAULT_MARK}' || s.first_no, '${REPEATED}')
    FROM crowd s JOIN crowd f ON f.row_no = s.first_no WHERE s.row_no <> s.first_no`,
  );
  await store.run('DROP TABLE crowd');
}
