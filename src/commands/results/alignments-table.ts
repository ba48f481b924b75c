import type { ColumnTable } from '../../book/store.ts';
import { EMPTY_BOOLEAN } from '../../book/store.ts';
import { alignmentOf } from '../../chances/play-alignment.ts';
import type { PlayTable } from '../../chances/play-table.ts';

/** One row for every play of the book, bunts included; empty cells where an infielder's start was not seen. */
export function alignmentsTable(table: PlayTable): ColumnTable {
  const { count } = table;
  const names = new Array<string | null>(count);
  const right = new Float64Array(count);
  const legal = new Uint8Array(count);
  const reasons = new Array<string | null>(count);
  for (let row = 0; row < count; row += 1) {
    const { name, rightSideInfielders, twoASide } = alignmentOf(table, row);
    names[row] = name;
    right[row] = rightSideInfielders ?? Number.NaN;
    legal[row] = twoASide.legal === null ? EMPTY_BOOLEAN : Number(twoASide.legal);
    reasons[row] = twoASide.legal === true ? null : twoASide.reason;
  }
  return {
    rowCount: count,
    columns: [
      { name: 'play_id', type: 'text', values: table.playId },
      { name: 'name', type: 'text', values: names },
      { name: 'right_side_infielders', type: 'integer', values: right },
      { name: 'legal_two_a_side', type: 'boolean', values: legal },
      { name: 'reason', type: 'text', values: reasons },
    ],
  };
}
