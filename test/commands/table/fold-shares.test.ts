import { expect, test } from 'vitest';
import { foldShares } from '../../../src/commands/table/fold-shares.ts';

const shares = (...rows: readonly (readonly [number, number, number])[]) => ({
  rowCount: rows.length,
  columns: [
    { name: 'team', type: 'text' as const, values: rows.map(() => 'Tarn') },
    ...['full', 'ground', 'whole'].map((grade, k) => ({
      name: `share_${grade}`,
      type: 'double' as const,
      values: Float64Array.from(rows, (row) => row[k]!),
    })),
  ],
});

test('three shares become one column in place of the first, and none or all is said of none and all only', () => {
  const folded = foldShares(shares([0.92, 0.05, 0.03], [1, 0, 0], [0.998, 0.002, 0], [Number.NaN, 0.5, 0.5]));
  expect(folded.columns.map(({ name }) => name)).toEqual(['team', 'full/ground/whole %']);
  expect(folded.columns[1]!.values).toEqual(['92/5/3', '100/0/0', '>99/<1/0', null]);
});

test('a table with only some of them is left alone', () => {
  const table = shares([1, 0, 0]);
  const some = { ...table, columns: table.columns.slice(0, 3) };
  expect(foldShares(some)).toBe(some);
});
