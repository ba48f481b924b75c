import { INCOMING_TABLES } from './incoming-tables.ts';
import { OUTGOING_TABLES, type OutgoingTableName } from './outgoing-tables.ts';
import { quoteName } from './sql-text.ts';
import type { ColumnType } from './store.ts';

export {
  INCOMING_TABLES,
  type IncomingColumn,
  type IncomingTableName,
  START_LIMITS,
} from './incoming-tables.ts';
export {
  OUTGOING_TABLES,
  type OutgoingTableName,
} from './outgoing-tables.ts';

/** Raised by one whenever a table or column changes; a program opens only the schema that it knows. */
export const SCHEMA_VERSION = 3;

/** What is known about the book itself: schema_version, created, program_version, build_id; key and value. */
export const INFO_TABLE = 'book_info';
/** The settings of the last build; key and value. */
export const SETTINGS_TABLE = 'build_settings';

/** Our types in the engine's words. */
const SQL_TYPES: Record<ColumnType, string> = {
  text: 'VARCHAR',
  integer: 'INTEGER',
  double: 'DOUBLE',
  boolean: 'BOOLEAN',
  date: 'DATE',
};

function createTableSql(
  verb: string,
  table: string,
  columns: readonly { name: string; type: ColumnType; required?: boolean }[],
): string {
  const lines = columns.map(
    ({ name, type, required }) => `${quoteName(name)} ${SQL_TYPES[type]}${required ? ' NOT NULL' : ''}`,
  );
  return `${verb} ${quoteName(table)} (${lines.join(', ')});`;
}

/** Statement that empties an outgoing table; creating it anew gives its blocks back, deleting its rows does not. */
export function recreateTableSql(table: OutgoingTableName): string {
  return createTableSql('CREATE OR REPLACE TABLE', table, OUTGOING_TABLES[table].columns);
}

/**
 * Statements that make every table of an empty book. There are no key constraints: intake sees to the keys, and an
 * index over 675,000 starts would cost more than the rest of the load.
 */
export function createTablesSql(): string {
  const pairs = [
    { name: 'key', type: 'text', required: true },
    { name: 'value', type: 'text', required: true },
  ] as const;
  return [
    createTableSql('CREATE TABLE', INFO_TABLE, pairs),
    createTableSql('CREATE TABLE', SETTINGS_TABLE, pairs),
    ...Object.entries(INCOMING_TABLES).map(([table, { columns }]) => createTableSql('CREATE TABLE', table, columns)),
    ...Object.entries(OUTGOING_TABLES).map(([table, { columns }]) => createTableSql('CREATE TABLE', table, columns)),
  ].join('\n');
}
