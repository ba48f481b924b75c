import { ENTRY_KINDS } from '../ledger/entry-kinds.ts';
import { type GameCells, RATED_KINDS } from '../ratings/game-cells.ts';
import type { Book } from './open-book.ts';
import { quoteText } from './sql-text.ts';
import type { Cell } from './store.ts';

export interface DefenderGames {
  /** One row a defender, in the order asked for; room to gain is not read and is 0. */
  readonly cells: GameCells<string>;
  /** Ids of the games that the cells count in. */
  readonly games: readonly string[];
}

/** What some defenders did game by game, from the entries and chances of the last build; all their positions and seasons, or one. */
export async function readDefenderGames(
  book: Book,
  fielderIds: readonly string[],
  { position, season }: { readonly position?: number | undefined; readonly season?: number | undefined },
): Promise<DefenderGames> {
  const conditions = [`fielder_id IN (${fielderIds.map(quoteText).join(', ')})`];
  if (position !== undefined) conditions.push(`position = ${position}`);
  if (season !== undefined) conditions.push(`season = ${season}`);
  const where = conditions.join(' AND ');
  const kindSum = (unit: string, kind: string, more: string) =>
    `coalesce(sum(${unit}) FILTER (kind = '${kind}'${more}), 0) AS ${kind}_${unit}`;
  const sums = [
    ...ENTRY_KINDS.map((kind) => kindSum('runs', kind, '')),
    ...RATED_KINDS.map((kind) => kindSum('outs', kind, ` AND grade = 'full'`)),
  ];
  const { rowCount, columns } = await book.store.query(`
    WITH exposed AS (
      SELECT fielder_id, game_id, sum(plays)::DOUBLE AS plays, sum(plays_full)::DOUBLE AS plays_full, sum(chances) AS chances
      FROM game_chances WHERE ${where} GROUP BY ALL),
    own AS (SELECT play_id, fielder_id, kind, outs, runs, grade FROM entries WHERE ${where}),
    entered AS (SELECT fielder_id, game_id, ${sums.join(', ')} FROM own JOIN plays USING (play_id) GROUP BY ALL)
    SELECT exposed.*, entered.* EXCLUDE (fielder_id, game_id)
    FROM exposed LEFT JOIN entered USING (fielder_id, game_id)
    ORDER BY list_position([${fielderIds.map(quoteText).join(', ')}], fielder_id), game_id`);
  const values = new Map(columns.map((column) => [column.name, column.values as ArrayLike<Cell>]));
  const column = (name: string) =>
    Float64Array.from({ length: rowCount }, (_, row) => Number(values.get(name)![row]) || 0);
  const owner = values.get('fielder_id') as readonly string[];
  const gameId = values.get('game_id') as readonly string[];
  const games = [...new Set(gameId)];
  const numbers = new Map(games.map((game, number) => [game, number]));
  const start = new Int32Array(fielderIds.length + 1);
  fielderIds.forEach((id, r) => {
    start[r + 1] = start[r]! + owner.filter((own) => own === id).length;
  });
  return {
    games,
    cells: {
      rows: fielderIds,
      start,
      game: Int32Array.from(gameId, (game) => numbers.get(game)!),
      runs: ENTRY_KINDS.map((kind) => column(`${kind}_runs`)),
      fullOuts: RATED_KINDS.map((kind) => column(`${kind}_outs`)),
      chances: column('chances'),
      plays: column('plays'),
      fullPlays: column('plays_full'),
      roomOuts: new Float64Array(rowCount),
      roomRuns: new Float64Array(rowCount),
    },
  };
}
