import type { ColumnTable } from '../../book/store.ts';
import type { PlayTable } from '../../chances/play-table.ts';
import { SIDES } from '../../diamond/play-codes.ts';
import { INTERVAL_LEVELS, intervalOf } from '../../ratings/intervals.ts';
import type { TeamPlacement } from '../../ratings/team-placement.ts';
import { TableWriter } from './columns.ts';

/** One row a season, club and batter's side. */
export function teamPlacementTable(table: PlayTable, rows: readonly TeamPlacement[]): ColumnTable {
  const writer = new TableWriter(rows)
    .integer('season', ({ season }) => season)
    .text('team', ({ team }) => table.teams[team])
    .text('batter_side', ({ side }) => SIDES[side])
    .integer('plays', ({ plays }) => plays)
    .number('placement_outs', ({ placementOuts }) => placementOuts)
    .number('placement_rating', ({ rating }) => rating.mean);
  for (const level of INTERVAL_LEVELS) {
    writer
      .number(`lo${level}`, ({ rating }) => intervalOf(rating, level)[0])
      .number(`hi${level}`, ({ rating }) => intervalOf(rating, level)[1]);
  }
  return writer.number('spread', ({ spread }) => spread).table();
}
