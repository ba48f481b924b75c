import { cellOf } from '../../book/cell.ts';
import type { Column, ColumnTable } from '../../book/store.ts';

const ROWS_A_CHUNK = 2000;
/** What makes a spreadsheet take a text for a formula. */
const FORMULA_START = /^[=+\-@\t\r\n]/;
const PLAIN_NUMBER = /^[+-]?\d+(\.\d+)?$/;
const NEEDS_QUOTES = /[",\t\r\n]/;
/** Most cells need none of the above; one look tells. */
const NEEDS_CARE = /^$|^[=+\-@\t\r\n]|[",\t\r\n]/;

/** A text cell: an apostrophe before what a spreadsheet would run, quotes where RFC 4180 wants them. */
export function csvText(text: string): string {
  if (!NEEDS_CARE.test(text)) return text;
  // Null is an empty cell; a text without letters is a pair of quotes.
  if (text === '') return '""';
  const harmless = FORMULA_START.test(text) && !PLAIN_NUMBER.test(text) ? `'${text}` : text;
  return NEEDS_QUOTES.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}

/** Writes the cells of one column; numbers as the shortest digits that read back as the same number. */
function cellWriter(column: Column): (row: number) => string {
  const { type, values } = column;
  if (type === 'text' || type === 'date') {
    return (row) => {
      const text = values[row] as string | null;
      return text === null ? '' : csvText(text);
    };
  }
  return (row) => {
    const cell = cellOf(column, row);
    return cell === null ? '' : String(cell);
  };
}

/**
 * A table as RFC 4180 text: a header, CRLF after every line, numbers in full precision. A tab as `separator` makes what
 * spreadsheets take from the clipboard.
 */
export function* renderCsv(table: ColumnTable, separator: ',' | '\t' = ','): Generator<string> {
  yield `${table.columns.map(({ name }) => csvText(name)).join(separator)}\r\n`;
  const writers = table.columns.map(cellWriter);
  for (let start = 0; start < table.rowCount; start += ROWS_A_CHUNK) {
    const end = Math.min(start + ROWS_A_CHUNK, table.rowCount);
    let chunk = '';
    for (let row = start; row < end; row++) {
      for (let index = 0; index < writers.length; index++)
        chunk += (index === 0 ? '' : separator) + writers[index]!(row);
      chunk += '\r\n';
    }
    yield chunk;
  }
}
