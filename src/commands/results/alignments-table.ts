import type { ColumnTable } from '../../book/store.ts';
import { EMPTY_BOOLEAN } from '../../book/store.ts';
import type { PlayTable } from '../../chances/play-table.ts';
import { nameAlignment } from '../../diamond/alignment.ts';
import { rightSideInfielders } from '../../diamond/alignment-sides.ts';
import { INFIELD, POSITION_COUNT } from '../../diamond/play-codes.ts';
import { legalTwoASide } from '../../diamond/playing-rules.ts';

/** One row for every play of the book, bunts included; empty cells where an infielder's start was not seen. */
export function alignmentsTable(table: PlayTable): ColumnTable {
  const { count } = table;
  const names = new Array<string | null>(count);
  const right = new Float64Array(count);
  const legal = new Uint8Array(count);
  const starts = new Float64Array(2 * INFIELD.length);
  const context = { outs: 0, bases: 0, batterSide: 0 };
  for (let row = 0; row < count; row += 1) {
    for (let k = 0; k < INFIELD.length; k += 1) {
      starts[2 * k] = table.startXFt[row * POSITION_COUNT + k];
      starts[2 * k + 1] = table.startYFt[row * POSITION_COUNT + k];
    }
    context.outs = table.outsBefore[row];
    context.bases = table.bases[row];
    context.batterSide = table.batterSide[row];
    names[row] = nameAlignment(starts, 0, context);
    right[row] = rightSideInfielders(starts, 0) ?? Number.NaN;
    const verdict = legalTwoASide(starts, 0).legal;
    legal[row] = verdict === null ? EMPTY_BOOLEAN : Number(verdict);
  }
  return {
    rowCount: count,
    columns: [
      { name: 'play_id', type: 'text', values: table.playId },
      { name: 'name', type: 'text', values: names },
      { name: 'right_side_infielders', type: 'integer', values: right },
      { name: 'legal_two_a_side', type: 'boolean', values: legal },
    ],
  };
}
