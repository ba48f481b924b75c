import { type Cell, type Column, EMPTY_BOOLEAN } from './store.ts';

/** One cell of a column, as a value of its own. */
export function cellOf(column: Column, row: number): Cell {
  const value = column.values[row]!;
  if (value === null || typeof value === 'string') return value;
  if (column.type === 'boolean') return value === EMPTY_BOOLEAN ? null : value === 1;
  return Number.isNaN(value) ? null : value;
}
