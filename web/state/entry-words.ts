import { entriesOf, halfWidthOf, sumOf, type Unit } from './entry-sums.ts';
import { signed } from './number-text.ts';
import type { Row } from './table/row-source.ts';

/** What a row's bar or staircase shows, in words: its entries, the net and the net's 80 % interval. */
export function entryWords(row: Row, unit: Unit): string {
  const net = sumOf(row, 'net', unit);
  const half = halfWidthOf(row, 'net', unit);
  const parts = entriesOf(row, unit)
    .filter(({ value }) => Number(signed(value)) !== 0)
    .map(({ kind, value }) => `${kind} ${signed(value)}`);
  const range = half === null ? '' : `, 80 % ${signed(net - half)} to ${signed(net + half)}`;
  return `${[...parts, `net ${signed(net)}`].join(', ')} ${unit}${range}`;
}
