import type { ColumnTable } from '../../book/store.ts';
import type { PlayTable } from '../../chances/play-table.ts';
import { intervalOf } from '../../ratings/intervals.ts';
import { intervalToCome } from '../../ratings/outs-to-come.ts';
import type { RatedBook } from '../rate-book.ts';
import { TableWriter } from './columns.ts';
import { personId } from './person-id.ts';

/** One row a defender and position of the last season: what to expect of the next. */
export function nextSeasonTable(table: PlayTable, { next }: RatedBook): ColumnTable {
  const writer = new TableWriter(next)
    .integer('season', ({ season }) => season)
    .text('fielder_id', ({ man }) => personId(table, man))
    .integer('position', ({ position }) => position)
    .number('seen_chances', ({ seenChances }) => seenChances)
    .number('rating', ({ rating }) => rating.mean)
    .number('rating_lo80', ({ rating }) => intervalOf(rating, 80)[0])
    .number('rating_hi80', ({ rating }) => intervalOf(rating, 80)[1])
    .number('ageing', ({ ageing }) => ageing)
    .number('expected_chances', ({ chances }) => chances.mean)
    .number('expected_chances_sd', ({ chances }) => chances.sd);
  for (const unit of ['outs', 'runs'] as const) {
    writer
      .number(`expected_${unit}`, (row) => row[unit].mean)
      .number(`expected_${unit}_lo80`, (row) => intervalToCome(row[unit], 80)[0])
      .number(`expected_${unit}_hi80`, (row) => intervalToCome(row[unit], 80)[1]);
  }
  return writer.table();
}
