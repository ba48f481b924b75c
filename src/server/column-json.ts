import { cellOf } from '../book/cell.ts';
import type { Cell, Column, ColumnTable } from '../book/store.ts';
import type { JsonColumn } from './answers.ts';

export function columnsAsJson(table: ColumnTable): JsonColumn[] {
  return table.columns.map((column) => ({ name: column.name, type: column.type, values: valuesOf(column) }));
}

function valuesOf(column: Column): readonly Cell[] {
  if (column.type === 'text' || column.type === 'date') return column.values as readonly (string | null)[];
  return Array.from({ length: column.values.length }, (_, row) => cellOf(column, row));
}
