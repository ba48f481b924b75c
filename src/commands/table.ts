import { BUILD_ID, readInfo, readSettings } from '../book/book-info.ts';
import { type Book, openBook } from '../book/open-book.ts';
import { readNames } from '../book/read-play-table.ts';
import { OUTGOING_TABLES } from '../book/schema.ts';
import { quoteText } from '../book/sql-text.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import { DIRECTION_PARTS } from '../ratings/directions.ts';
import { foldIntervals } from './table/fold-intervals.ts';
import { foldShares } from './table/fold-shares.ts';
import { relabel } from './table/relabel.ts';
import { renderCsv } from './table/render-csv.ts';
import { renderJson } from './table/render-json.ts';
import { renderText } from './table/render-text.ts';
import { runNotes, runTableText, runValuesText } from './table/run-text.ts';
import {
  checkTableName,
  columnsOf,
  type TableFilters,
  type TableName,
  type TableQuery,
  tableQuery,
} from './table/table-query.ts';
import { PERSON_COLUMNS, TEXT_COLUMNS, TEXT_NOTES } from './table/text-columns.ts';
import { writeChunks, writeOut } from './table/write-out.ts';

export const TABLE_FORMATS = ['text', 'csv', 'json', 'parquet'] as const;
export type TableFormat = (typeof TABLE_FORMATS)[number];

export interface TableOptions extends TableFilters {
  /** Folder of the book. */
  readonly book: string;
  /** One of TABLE_NAMES (table/table-query.ts). */
  readonly name: string;
  /** The table fielders with one row a defender and position, over all seasons and clubs. */
  readonly career?: boolean | undefined;
  readonly format: TableFormat;
  /** File to write; without one the answer has the chunks. Parquet needs one. */
  readonly out?: string | undefined;
  /** Most rows; default 50 for text, all for the other formats. */
  readonly limit?: number | undefined;
}

export interface TableEffects {
  readonly now: () => Date;
}

export interface TableAnswer {
  /** Rows that match the filters. */
  readonly rowCount: number;
  /** Rows that were rendered or written. */
  readonly shownCount: number;
  /** What to print, in order; nothing when it went into a file. */
  readonly chunks: Iterable<string>;
  /** The file that was written. */
  readonly out?: string;
}

const TEXT_LIMIT = 50;

/** Why there is nothing to show. */
async function whyEmpty(book: Book, { name, asked }: TableQuery, { part }: TableFilters): Promise<string> {
  if (asked !== '') {
    const [all] = await book.store.rows(tableQuery(name, {}).countSql);
    const why =
      part !== undefined && DIRECTION_PARTS.includes(part)
        ? " Reach is rated by direction only where the book's men differ in it by more than chance."
        : '';
    if (all!.n !== 0) return `No row of ${name} matches ${asked}.${why}`;
  }
  const intake = `run leatherbook intake --book ${book.dir} --mapping FILE`;
  if (name === 'plays') return `The table plays is empty: nothing has come in yet; ${intake}.`;
  if (OUTGOING_TABLES[name].writtenBy === 'intake') {
    const [log] = await book.store.rows('SELECT count(*) AS n FROM intake_log');
    if (log!.n === 0) return `The table ${name} is empty: nothing has come in yet; ${intake}.`;
    return 'The table set_aside is empty: every row that was read could be used.';
  }
  if (OUTGOING_TABLES[name].writtenBy === 'plan') {
    return `The table ${name} is empty: no plans are kept yet; run leatherbook plan --book ${book.dir} --all --defence CLUB.`;
  }
  if ((await readInfo(book.store, BUILD_ID)) === null) {
    return `The table ${name} is empty: the book has not been built yet; run leatherbook build --book ${book.dir}.`;
  }
  return `The table ${name} is empty: the last build had nothing to put in it.`;
}

/** The tables of runs in the forms that one reads them in. */
async function runsAsText(book: Book, query: TableQuery): Promise<string> {
  const table = await book.store.query(query.rowsSql(columnsOf(query.name)));
  const [{ source } = { source: '' }] = await book.store.rows('SELECT source FROM run_table LIMIT 1');
  const lines = query.name === 'run_table' ? runTableText(table) : runValuesText(table);
  return `${lines}\n${runNotes(await readSettings(book.store), String(source))}--format csv, json or parquet has a row a state.\n`;
}

async function asText(
  book: Book,
  query: TableQuery,
  filters: TableFilters,
  rowCount: number,
  limit: number,
): Promise<string> {
  if (rowCount === 0) return `${await whyEmpty(book, query, filters)}\n`;
  const all = columnsOf(query.name);
  const wanted = TEXT_COLUMNS[query.name] ?? all;
  const queried = await book.store.query(query.rowsSql(wanted, limit));
  const table = relabel(foldIntervals(foldShares(queried)), query.name);
  const wantsNames = wanted.some((column) => PERSON_COLUMNS.includes(column)) && !wanted.includes('name');
  const { lines, emptyColumns } = renderText(table, wantsNames ? await readNames(book) : new Map());
  const notes = [];
  const meaning = TEXT_NOTES[query.name];
  if (meaning !== undefined) notes.push(meaning);
  if (table.rowCount < rowCount) {
    notes.push(`${table.rowCount} of ${rowCount} rows; --limit N shows more, --format csv has them all.`);
  } else {
    notes.push(`${rowCount} ${rowCount === 1 ? 'row' : 'rows'}.`);
  }
  if (emptyColumns.length > 0) notes.push(`Empty in these rows, so not shown: ${emptyColumns.join(', ')}.`);
  if (wanted.length < all.length) notes.push(`--format csv, json or parquet has all ${all.length} columns.`);
  return `${lines}\n${notes.join('\n')}\n`;
}

async function writeParquet(book: Book, sql: string, out: string): Promise<void> {
  await writeOut(out, async (draft) => {
    await book.store.run(`COPY (${sql}) TO ${quoteText(draft)} (FORMAT parquet)`);
  });
}

function checkOptions({ format, out, limit }: TableOptions): void {
  if (!TABLE_FORMATS.includes(format)) {
    throw new ExpectedFailure(
      'usage',
      `There is no format "${format}".`,
      `The formats are ${TABLE_FORMATS.join(', ')}.`,
    );
  }
  if (format === 'parquet' && out === undefined) {
    throw new ExpectedFailure('usage', 'Parquet is not text and cannot be printed.', 'Name the file with --out FILE.');
  }
  if (limit !== undefined && !(Number.isSafeInteger(limit) && limit >= 0)) {
    throw new ExpectedFailure('usage', `--limit wants a whole number from 0 up and got ${limit}.`, 'Correct --limit.');
  }
}

function nameOf({ name, career, season, team }: TableOptions): TableName {
  const table = checkTableName(name);
  if (career !== true) return table;
  const misfit =
    table !== 'fielders'
      ? `the table ${table}`
      : season !== undefined
        ? '--season'
        : team !== undefined
          ? '--team'
          : null;
  if (misfit === null) return 'careers';
  throw new ExpectedFailure(
    'usage',
    `--career does not go with ${misfit}: it adds up the table fielders over seasons and clubs.`,
    'Leave one of the two out.',
  );
}

/**
 * One table of a book as text, CSV, JSON or Parquet (data-contract.md, "Tables that go out"). Only text rounds, and only
 * text leaves columns out.
 * @throws ExpectedFailure `usage`: no such table or format, a filter that the table has no column for, a file that cannot
 * be written; `book`: what openBook says
 */
export async function table(options: TableOptions, effects: TableEffects): Promise<TableAnswer> {
  checkOptions(options);
  const { format, out, limit } = options;
  const query = tableQuery(nameOf(options), options);
  const book = await openBook(options.book, { access: 'read', command: 'leatherbook table', now: effects.now });
  try {
    const [counted] = await book.store.rows(query.countSql);
    const rowCount = counted!.n as number;
    const shownCount = Math.min(rowCount, limit ?? (format === 'text' ? TEXT_LIMIT : rowCount));
    const sql = query.rowsSql(columnsOf(query.name), limit);
    if (format === 'parquet') {
      await writeParquet(book, sql, out!);
      return { rowCount, shownCount, chunks: [], out: out! };
    }
    let chunks: Iterable<string>;
    if (format === 'text') {
      const isOfRuns = query.name === 'run_table' || query.name === 'run_values';
      const wholeOfRuns = isOfRuns && rowCount > 0 && limit === undefined;
      chunks = [wholeOfRuns ? await runsAsText(book, query) : await asText(book, query, options, rowCount, shownCount)];
    } else {
      // Read as a whole, so that the book is free again while somebody is slow to take the chunks.
      const data = await book.store.query(sql);
      chunks = format === 'csv' ? renderCsv(data) : renderJson(data);
    }
    if (out === undefined) return { rowCount, shownCount, chunks };
    await writeOut(out, async (draft) => writeChunks(draft, chunks));
    return { rowCount, shownCount, chunks: [], out };
  } finally {
    await book.close();
  }
}
