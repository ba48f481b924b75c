import { cellOf } from '../../book/cell.ts';
import type { Column, ColumnTable } from '../../book/store.ts';
import type { TableName } from './table-query.ts';
import { GROUPED_COLUMNS, TEXT_HEADINGS } from './text-columns.ts';

/** Short headings, and blanks for what the row above says already. */
export function relabel({ rowCount, columns }: ColumnTable, name: TableName): ColumnTable {
  const headings = TEXT_HEADINGS[name] ?? {};
  const grouped = GROUPED_COLUMNS[name] ?? [];
  const repeats = new Uint8Array(rowCount).fill(1);
  return {
    rowCount,
    columns: columns.map((column): Column => {
      const heading = headings[column.name] ?? column.name;
      if (!grouped.includes(column.name)) return { ...column, name: heading };
      const cells = Array.from({ length: rowCount }, (_, row) => String(cellOf(column, row) ?? ''));
      const values = cells.map((cell, row) => {
        if (row === 0 || cell !== cells[row - 1]) repeats[row] = 0;
        return repeats[row] ? null : cell;
      });
      return { name: heading, type: 'text', values };
    }),
  };
}
