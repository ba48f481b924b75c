import { ENTRY_KINDS } from '../../src/ledger/entry-kinds.ts';
import { type GameCells, RATED_KINDS } from '../../src/ratings/game-cells.ts';

/** One man's game: its number, and what he did in it. Entries in outs and in runs are the same number. */
export interface InventedGame {
  readonly game: number;
  readonly reach?: number;
  readonly placement?: number;
  readonly chances?: number;
  readonly room?: number;
}

/** Game sums of rows of invented games. */
export function inventCells<Row>(rows: readonly (readonly [Row, readonly InventedGame[]])[]): GameCells<Row> {
  const games = rows.flatMap(([, own]) => own);
  const start = new Int32Array(rows.length + 1);
  rows.forEach(([, own], r) => {
    start[r + 1] = start[r]! + own.length;
  });
  const column = (value: (game: InventedGame) => number) => Float64Array.from(games, value);
  const byKind = (kind: string) =>
    column((game) => (kind === 'reach' ? (game.reach ?? 0) : kind === 'placement' ? (game.placement ?? 0) : 0));
  return {
    rows: rows.map(([row]) => row),
    start,
    game: Int32Array.from(games, ({ game }) => game),
    runs: ENTRY_KINDS.map(byKind),
    fullOuts: RATED_KINDS.map(byKind),
    chances: column(({ chances }) => chances ?? 0),
    plays: column(() => 1),
    fullPlays: column(() => 1),
    roomOuts: column(({ room }) => room ?? 0),
    roomRuns: column(({ room }) => room ?? 0),
  };
}
