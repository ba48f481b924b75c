import type { ColumnTable } from '../../book/store.ts';
import { TableWriter } from './columns.ts';
import type { GameSums } from './game-sums.ts';
import { personId } from './person-id.ts';

/** One row a game and defender, position and club: his plays and chances, without which entries make no rates. */
export function gameChancesTable({ table, men }: GameSums): ColumnTable {
  const rows = men.rows.flatMap((row, r) =>
    Array.from({ length: men.start[r + 1] - men.start[r] }, (_, k) => ({ row, cell: men.start[r] + k })),
  );
  return new TableWriter(rows)
    .integer('season', ({ row }) => row.season)
    .text('game_id', ({ cell }) => table.games[men.game[cell]])
    .text('fielder_id', ({ row }) => personId(table, row.fielder))
    .integer('position', ({ row }) => row.position)
    .text('team', ({ row }) => table.teams[row.team])
    .integer('plays', ({ cell }) => men.plays[cell])
    .integer('plays_full', ({ cell }) => men.fullPlays[cell])
    .number('chances', ({ cell }) => men.chances[cell])
    .table();
}
