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

/** The steps of judgement, each with a table of its own of the rows it objects to. */
const STEPS = ['rows', 'sides', 'plays', 'book', 'load', 'places'] as const;
export type Step = (typeof STEPS)[number];
const stepName = (table: IncomingTableName, step: Step) => `verdict_${table}_${step}`;

/** Table expression: rows of a staging table that will not be added to the book, because set aside or there already. */
export function verdicts(table: IncomingTableName): string {
  return `(${STEPS.map((step) => `SELECT row_no, fault FROM ${stepName(table, step)}`).join(' UNION ALL ')})`;
}

/**
 * Keeps what one step of judgement found; `select` gives row_no and fault. A table for each step, made at once: the engine
 * (release 1.5.6) loses a big INSERT that follows an empty, ordered one into the same table within a transaction.
 */
export async function keepVerdicts(store: Store, table: IncomingTableName, step: Step, select: string): Promise<void> {
  await store.run(`CREATE OR REPLACE TEMP TABLE ${stepName(table, step)} AS
    SELECT row_no::BIGINT AS row_no, fault::VARCHAR AS fault FROM (${select}) AS judged(row_no, fault)`);
}

/** Verdict of a row that the book (or this load) has already, in every column the same. */
export const REPEATED = 'repeated';

const SQL_TYPES = { text: 'VARCHAR', integer: 'INTEGER', double: 'DOUBLE', boolean: 'BOOLEAN', date: 'DATE' } as const;

/** Staging tables are temporary: they cost the book nothing and vanish with the connection. */
export async function createStage(store: Store, table: IncomingTableName): Promise<void> {
  const columns = INCOMING_TABLES[table].columns.map(({ name, type }) => `${quoteName(name)} ${SQL_TYPES[type]}`);
  await store.run(`CREATE OR REPLACE TEMP TABLE ${stageName(table)} (${columns.join(', ')}, fault VARCHAR)`);
  for (const step of STEPS) await keepVerdicts(store, table, step, 'SELECT NULL, NULL WHERE false');
}

export async function dropStage(store: Store, table: IncomingTableName): Promise<void> {
  const names = [stageName(table), ...STEPS.map((step) => stepName(table, step))];
  await store.run(names.map((name) => `DROP TABLE IF EXISTS ${name}`).join('; '));
}

/** Rows of the stage that no check has objected to so far. */
export function candidates(table: IncomingTableName): string {
  return `(SELECT rowid AS row_no, * EXCLUDE (fault) FROM ${stageName(table)}
    WHERE rowid NOT IN (SELECT row_no FROM ${verdicts(table)}))`;
}

export async function countRows(store: Store, sql: string): Promise<number> {
  const [row] = await store.rows(`SELECT count(*)::INTEGER AS n FROM ${sql}`);
  return Number(row!.n);
}
