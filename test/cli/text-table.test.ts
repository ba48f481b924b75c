import { expect, test } from 'vitest';
import { textTable } from '../../src/cli/text-table.ts';

test('numbers stand to the right, signed ones with a plus, rounded zero without a sign, empty cells blank', () => {
  const columns = [{ name: 'club' }, { name: 'outs', decimals: 1, signed: true }, { name: 'plays' }];
  const rows = [
    ['Alder Bend', 12.345, 900],
    ['Quill', -0.04, null],
    ['Marsh', -3, 7],
  ];
  expect(textTable(columns, rows)).toBe(
    ['club         outs  plays', 'Alder Bend  +12.3    900', 'Quill         0.0', 'Marsh        -3.0      7', ''].join(
      '\n',
    ),
  );
});

test('a table without rows is its heading', () => {
  expect(textTable([{ name: 'a' }, { name: 'b' }], [])).toBe('a  b\n');
});
