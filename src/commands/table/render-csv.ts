import { cellOf } from '../../book/cell.ts';
import type { Column, ColumnTable } from '../../book/store.ts';
import { csvText } from '../../csv-text.ts';

const ROWS_A_CHUNK = 2000;
/** Writes the cells of one column; numbers as the shortest digits that read back as the same number. */
function cellWriter(column: Column, separator: ',' | '\t'): (row: number) => string {
  const { type, values } = column;
  if (type === 'text' || type === 'date') {
    return (row) => {
      const text = values[row] as string | null;
      return text === null ? '' : csvText(text, separator);
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
  yield `${table.columns.map(({ name }) => csvText(name, separator)).join(separator)}\r\n`;
  const writers = table.columns.map((column) => cellWriter(column, separator));
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
