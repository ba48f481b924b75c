import { cellOf } from '../../book/cell.ts';
import type { ColumnTable } from '../../book/store.ts';

const ROWS_A_CHUNK = 2000;

/** A table as a JSON array of objects, one a line; an empty cell is null. */
export function* renderJson(table: ColumnTable): Generator<string> {
  const keys = table.columns.map(({ name }) => JSON.stringify(name));
  yield '[';
  for (let start = 0; start < table.rowCount; start += ROWS_A_CHUNK) {
    const end = Math.min(start + ROWS_A_CHUNK, table.rowCount);
    let chunk = '';
    for (let row = start; row < end; row++) {
      const cells = table.columns.map((column, index) => `${keys[index]}:${JSON.stringify(cellOf(column, row))}`);
      chunk += `${row === 0 ? '\n' : ',\n'}{${cells.join(',')}}`;
    }
    yield chunk;
  }
  yield '\n]\n';
}
