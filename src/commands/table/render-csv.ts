import { cellOf } from '../../book/cell.ts';
import type { Cell, ColumnTable } from '../../book/store.ts';

const ROWS_A_CHUNK = 2000;
/** What makes a spreadsheet take a text for a formula. */
const FORMULA_START = /^[=+\-@\t\r\n]/;
const PLAIN_NUMBER = /^[+-]?\d+(\.\d+)?$/;
const NEEDS_QUOTES = /[",\r\n]/;

/** A text cell: an apostrophe before what a spreadsheet would run, quotes where RFC 4180 wants them. */
export function csvText(text: string): string {
  // Null is an empty cell; a text without letters is a pair of quotes.
  if (text === '') return '""';
  const harmless = FORMULA_START.test(text) && !PLAIN_NUMBER.test(text) ? `'${text}` : text;
  return NEEDS_QUOTES.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}

function csvCell(cell: Cell): string {
  if (cell === null) return '';
  // The shortest digits that read back as the same number.
  return typeof cell === 'string' ? csvText(cell) : String(cell);
}

/** A table as RFC 4180 text: a header, CRLF after every line, numbers in full precision. */
export function* renderCsv(table: ColumnTable): Generator<string> {
  yield `${table.columns.map(({ name }) => csvText(name)).join(',')}\r\n`;
  for (let start = 0; start < table.rowCount; start += ROWS_A_CHUNK) {
    const end = Math.min(start + ROWS_A_CHUNK, table.rowCount);
    let chunk = '';
    for (let row = start; row < end; row++) {
      for (let index = 0; index < table.columns.length; index++) {
        chunk += (index === 0 ? '' : ',') + csvCell(cellOf(table.columns[index]!, row));
      }
      chunk += '\r\n';
    }
    yield chunk;
  }
}
