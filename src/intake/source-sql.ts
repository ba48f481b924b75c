import { quoteName, quoteText } from '../book/sql-text.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import type { Source, TextSource } from './inspect-source.ts';
import { didYouMean, listWords } from './nearest-word.ts';

/** Stands between the line number and the record in a clean copy of JSON lines, where it can occur in no cell. */
export const JSON_DELIMITER = '\u0001';

/** What the engine reads in place of the source: the file itself, or a clean copy of it (clean-copy.ts). */
export interface ReadFrom {
  readonly file: string;
  readonly gzip: boolean;
  /** A clean copy has no header and begins every record with its line number. */
  readonly clean: boolean;
}

/** The columns of a source by name, and the SQL that reads them. */
export interface SourceReader {
  /** SQL of a source cell as it stands, within `from`. Throws when there is no such column. */
  cell(name: string, place: string): string;
  /** Table expression; every row in the order of the file. */
  from(): string;
  /** SQL condition that is true for a row that is no row of the format (JSON lines). */
  readonly broken: string | undefined;
}

/** A JSON pointer (RFC 6901), so that no character of a name means anything. */
function pointer(name: string): string {
  return `/${name.replaceAll('~', '~0').replaceAll('/', '~1')}`;
}

function missing(source: Source, columns: readonly string[], name: string, place: string): never {
  throw new ExpectedFailure(
    'data',
    `${source.shown} has no column '${name}', which ${place} asks for.${didYouMean(name, columns)} Its columns: ${listWords(columns)}.`,
    'Correct the column name in the mapping; upper and lower case count.',
    { file: source.shown, column: name },
  );
}

/** The engine's own reader of delimited text, told everything, so that it guesses nothing. */
function readCsvSql(source: TextSource, read: ReadFrom): string {
  const delimiter = source.delimiter === '' ? JSON_DELIMITER : source.delimiter;
  const cells = source.format === 'jsonl' ? ['c0'] : source.columns.map((_, index) => `c${index}`);
  const columns = read.clean ? ['line', ...cells] : cells;
  const options = [
    `delim=${quoteText(delimiter)}`,
    `quote=${quoteText(source.quote)}`,
    `escape=${quoteText(source.quote)}`,
    `header=${source.format === 'csv' && !read.clean}`,
    `columns={${columns.map((column) => `'${column}': 'VARCHAR'`).join(', ')}}`,
    `auto_detect=false`,
    `max_line_size=${source.limitBytes + (read.clean ? 32 : 0)}`,
    `compression='${read.gzip ? 'gzip' : 'none'}'`,
  ];
  return `read_csv(${quoteText(escapeGlob(read.file))}, ${options.join(', ')})`;
}

/** The engine takes a path for a pattern. */
export function escapeGlob(path: string): string {
  return path.replace(/[[*?]/g, (character) => `[${character}]`);
}

function csvReader(source: TextSource, read: ReadFrom): SourceReader {
  const places = new Map<string, number>();
  const twice = new Set<string>();
  source.columns.forEach((name, index) => {
    if (places.has(name)) twice.add(name);
    else places.set(name, index);
  });
  return {
    broken: undefined,
    cell(name, place) {
      const index = places.get(name) ?? missing(source, source.columns, name, place);
      if (twice.has(name)) {
        throw new ExpectedFailure(
          'data',
          `${source.shown} has more than one column '${name}', which ${place} asks for.`,
          'Give the columns of the file different names.',
          { file: source.shown, line: 1, column: name },
        );
      }
      return `c${index}`;
    },
    // An empty line is no row; with several columns the engine skips it by itself.
    from: () => readCsvSql(source, read) + (source.columns.length === 1 ? ' WHERE c0 IS NOT NULL' : ''),
  };
}

function jsonReader(source: TextSource, read: ReadFrom, keys: readonly string[]): SourceReader {
  const used: string[] = [];
  return {
    broken: 'j IS NULL',
    cell(name, place) {
      if (!keys.includes(name)) missing(source, keys, name, place);
      if (!used.includes(name)) used.push(name);
      return `j[${used.indexOf(name) + 1}]`;
    },
    from() {
      const pointers = used.map((name) => quoteText(pointer(name))).join(', ');
      return `(SELECT CASE WHEN json_valid(c0) AND json_type(c0) = 'OBJECT' THEN json_extract_string(c0, [${pointers}]) END AS j
        FROM ${readCsvSql(source, read)} WHERE c0 IS NOT NULL)`;
    },
  };
}

/**
 * @param columns names found in the file: of the header, all keys of JSON lines, the columns of Parquet
 */
export function sourceReader(source: Source, read: ReadFrom, columns: readonly string[]): SourceReader {
  if (source.format === 'csv') return csvReader(source, read);
  if (source.format === 'jsonl') return jsonReader(source, read, columns);
  return {
    broken: undefined,
    cell(name, place) {
      if (!columns.includes(name)) missing(source, columns, name, place);
      return `${quoteName(name)}::VARCHAR`;
    },
    from: () => `read_parquet(${quoteText(escapeGlob(source.file))})`,
  };
}
