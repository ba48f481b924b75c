import { INCOMING_TABLES, type IncomingTableName } from '../book/schema.ts';
import { quoteName } from '../book/sql-text.ts';
import type { Store } from '../book/store.ts';
import type { Source } from './inspect-source.ts';
import type { Section } from './mapping.ts';
import type { ReadFrom } from './source-sql.ts';

/** A line that could not be cut into cells; it never reaches the database. */
export interface BrokenLine {
  readonly line: number;
  readonly reason: string;
  readonly text: string;
}

/** One source file whose rows lie in the staging table of its section's table. */
export interface StagedFile {
  readonly section: Section;
  readonly source: Source;
  readonly read: ReadFrom;
  /** Its rows have `rowid` from `first` up to `first + rows`, in the order of the file. */
  readonly first: number;
  readonly rows: number;
  /** Wide starts: rows that stand for a position at which the line has nothing. */
  readonly nothing: number;
  readonly broken: readonly BrokenLine[];
}

export const stageName = (table: IncomingTableName) => `stage_${table}`;
/** Rows of a staging table that will not be added to the book: set aside, or there already. */
export const verdictName = (table: IncomingTableName) => `verdict_${table}`;

/** Verdict of a row that the book (or this load) has already, in every column the same. */
export const REPEATED = 'repeated';

const SQL_TYPES = { text: 'VARCHAR', integer: 'INTEGER', double: 'DOUBLE', boolean: 'BOOLEAN', date: 'DATE' } as const;

/** Staging tables are temporary: they cost the book nothing and vanish with the connection. */
export async function createStage(store: Store, table: IncomingTableName): Promise<void> {
  const columns = INCOMING_TABLES[table].columns.map(({ name, type }) => `${quoteName(name)} ${SQL_TYPES[type]}`);
  await store.run(`CREATE OR REPLACE TEMP TABLE ${stageName(table)} (${columns.join(', ')}, fault VARCHAR);
    CREATE OR REPLACE TEMP TABLE ${verdictName(table)} (row_no BIGINT, fault VARCHAR)`);
}

export async function dropStage(store: Store, table: IncomingTableName): Promise<void> {
  await store.run(`DROP TABLE IF EXISTS ${stageName(table)}; DROP TABLE IF EXISTS ${verdictName(table)}`);
}

/** Rows of the stage that no check has objected to so far. */
export function candidates(table: IncomingTableName): string {
  return `(SELECT rowid AS row_no, * EXCLUDE (fault) FROM ${stageName(table)}
    WHERE rowid NOT IN (SELECT row_no FROM ${verdictName(table)}))`;
}

export async function countRows(store: Store, sql: string): Promise<number> {
  const [row] = await store.rows(`SELECT count(*)::INTEGER AS n FROM ${sql}`);
  return Number(row!.n);
}
