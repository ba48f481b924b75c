import { cellOf } from '../../book/cell.ts';
import type { Column, ColumnTable } from '../../book/store.ts';
import { GRADES } from '../../chances/grades.ts';

const SHARES = GRADES.map((grade) => `share_${grade}`);
const HEADER = `${GRADES.join('/')} %`;

/** The shares of the grades in one narrow column of per cents, such as `92/5/3`, in the place of the first of them. */
export function foldShares(table: ColumnTable): ColumnTable {
  const shares = SHARES.map((name) => table.columns.find((column) => column.name === name));
  if (!shares.every((column) => column !== undefined)) return table;
  const values = Array.from({ length: table.rowCount }, (_, row) => {
    const cells = shares.map((column) => cellOf(column, row));
    return cells.every((cell) => typeof cell === 'number') ? cells.map(perCent).join('/') : null;
  });
  const folded: Column = { name: HEADER, type: 'text', values };
  const columns = table.columns
    .map((column) => (column === shares[0] ? folded : column))
    .filter(({ name }) => !SHARES.includes(name));
  return { rowCount: table.rowCount, columns };
}

/** Whole per cents that say 0 and 100 only when it is none and all. */
function perCent(share: number): string {
  if (share > 0 && share < 0.005) return '<1';
  if (share < 1 && share >= 0.995) return '>99';
  return (100 * share).toFixed(0);
}
