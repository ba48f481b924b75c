import { cellOf } from '../../book/cell.ts';
import type { Column, ColumnTable } from '../../book/store.ts';
import { textNumber } from './render-text.ts';

/** A rating or expectation and its 80 % interval in one column, such as `+3.1 (+1.9 to +4.2)`, in the place of three. */
export function foldIntervals(table: ColumnTable): ColumnTable {
  const byName = new Map(table.columns.map((column) => [column.name, column]));
  const folded = new Set<string>();
  const columns = table.columns.map((column): Column => {
    const lo = byName.get(`${column.name}_lo80`);
    const hi = byName.get(`${column.name}_hi80`);
    if (lo === undefined || hi === undefined) return column;
    folded.add(lo.name).add(hi.name);
    const values = Array.from({ length: table.rowCount }, (_, row) => {
      const cells = [column, lo, hi].map((each) => cellOf(each, row));
      if (!cells.every((cell) => typeof cell === 'number')) return null;
      const [value, from, to] = cells.map((cell) => textNumber(cell, column.name));
      return `${value} (${from} to ${to})`;
    });
    return { name: `${column.name}, 80 %`, type: 'text', values };
  });
  return { rowCount: table.rowCount, columns: columns.filter(({ name }) => !folded.has(name)) };
}
