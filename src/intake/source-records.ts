import { quoteName, quoteText } from '../book/sql-text.ts';
import type { Store } from '../book/store.ts';
import { syntaxOf } from './inspect-source.ts';
import { RecordScanner } from './record-scanner.ts';
import { sourceBytes } from './source-bytes.ts';
import { escapeGlob, JSON_DELIMITER } from './source-sql.ts';
import type { StagedFile } from './stage.ts';

/** Takes the source text of one record: its index among the records of the file, from 0, and its line, from 1. */
export type TakeRecord = (index: number, line: number, text: string) => void;

export interface WantedRecords {
  /** Indices in ascending order. */
  readonly indices: readonly number[];
  /** Lines whose records are wanted whatever their index. */
  readonly lines: ReadonlySet<number>;
}

/** Called now and then between records, so that what was taken can be written away. */
type Pause = () => Promise<void>;

async function scanText(file: StagedFile, wanted: WantedRecords, take: TakeRecord, pause: Pause): Promise<void> {
  const { source, read } = file;
  if (source.format === 'parquet') return;
  const syntax = syntaxOf(source);
  const clean =
    read.clean && source.format === 'jsonl' ? { ...syntax, delimiter: JSON_DELIMITER.charCodeAt(0) } : syntax;
  const limitBytes = read.clean ? source.limitBytes + 32 : source.limitBytes;
  let index = source.format === 'csv' && !read.clean ? -1 : 0;
  let next = 0;
  const scanner = new RecordScanner({ ...clean, limitBytes }, (bytes, start, end, scannedLine) => {
    let line = scannedLine;
    let from = start;
    if (read.clean) {
      from = bytes.indexOf(clean.delimiter, start) + 1;
      line = Number(bytes.toString('latin1', start, from - 1));
    }
    const isNext = wanted.indices[next] === index;
    if (isNext) next++;
    if (isNext || (index >= 0 && wanted.lines.has(line))) take(index, line, bytes.toString('utf8', from, end));
    index++;
  });
  const bytes = read.clean
    ? sourceBytes(read.file, source.shown, 'none', 'utf-8')
    : sourceBytes(read.file, source.shown, source.compression, source.encoding);
  for await (const chunk of bytes) {
    scanner.push(chunk);
    await pause();
  }
  scanner.finish();
  const staged = file.rows / file.section.rows.length;
  if (index !== staged) {
    throw new Error(
      `${source.shown}: ${index} records by lines, ${staged} by the reader; the lines of bad rows are not known`,
    );
  }
}

async function scanParquet(store: Store, file: StagedFile, wanted: WantedRecords, take: TakeRecord): Promise<void> {
  const path = quoteText(escapeGlob(file.source.file));
  const described = await store.rows(`DESCRIBE SELECT * FROM read_parquet(${path})`);
  const names = described.map((row) => String(row.column_name));
  const row = `{${names.map((name) => `${quoteText(name)}: ${quoteName(name)}`).join(', ')}}`;
  const numbers = [...new Set([...wanted.indices, ...[...wanted.lines].map((line) => line - 1)])].sort((a, b) => a - b);
  for (let from = 0; from < numbers.length; from += 5000) {
    const some = numbers.slice(from, from + 5000);
    const rows = await store.rows(`SELECT file_row_number::DOUBLE AS n, to_json(${row})::VARCHAR AS text
      FROM read_parquet(${path}, file_row_number = true) WHERE file_row_number IN (${some.join(', ')}) ORDER BY n`);
    for (const found of rows) take(Number(found.n), Number(found.n) + 1, String(found.text));
  }
}

/**
 * Reads a source a second time for the records that are wanted: the engine does not tell lines. A row of Parquet has its
 * number for a line and JSON for a text.
 */
export async function readRecords(
  store: Store,
  file: StagedFile,
  wanted: WantedRecords,
  take: TakeRecord,
  pause: Pause,
): Promise<void> {
  if (file.source.format === 'parquet') {
    await scanParquet(store, file, wanted, take);
    await pause();
  } else await scanText(file, wanted, take, pause);
}
