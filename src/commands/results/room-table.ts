import type { ColumnTable } from '../../book/store.ts';
import type { PlayTable } from '../../chances/play-table.ts';
import type { RoomToGain } from '../../ratings/room-to-gain.ts';
import { TableWriter } from './columns.ts';
import type { GameSums } from './game-sums.ts';
import { personId } from './person-id.ts';

/** One row a season and defender, position and club, or club alone: what even spots would have been worth. */
export function roomTable({ table, room }: GameSums, nameOf: ReadonlyMap<string, string>): ColumnTable {
  return roomRows(table, room, nameOf, 'even');
}

/** @param against what the men would be moved to: `even` spots or `planned` ones */
export function roomRows(
  table: PlayTable,
  rooms: readonly RoomToGain[],
  nameOf: ReadonlyMap<string, string>,
  against: 'even' | 'planned',
): ColumnTable {
  const idOf = (fielder: number | null) => (fielder === null ? null : personId(table, fielder));
  return new TableWriter(rooms)
    .integer('season', ({ season }) => season)
    .text('fielder_id', ({ fielder }) => idOf(fielder))
    .text('name', ({ fielder }) => nameOf.get(idOf(fielder) ?? '') ?? null)
    .integerOrEmpty('position', ({ position }) => position)
    .text('team', ({ team }) => table.teams[team])
    .integer('plays', ({ plays }) => plays)
    .text('against', () => against)
    .number('gain_outs', ({ gainOuts }) => gainOuts)
    .number('gain_runs', ({ gainRuns }) => gainRuns)
    .number('gain_runs_se', ({ gainRunsSe }) => gainRunsSe)
    .number('gain_runs_lo80', ({ lo80 }) => lo80)
    .number('gain_runs_hi80', ({ hi80 }) => hi80)
    .table();
}
