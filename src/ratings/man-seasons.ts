import type { PlayTable } from '../chances/play-table.ts';
import type { FielderRow } from '../ledger/fielder-rows.ts';
import { type GameCells, mergeRows, RATED_KINDS } from './game-cells.ts';

/** Kinds whose repeating is measured: those with a rate a chance, and their net. */
export const MEASURED_KINDS = [...RATED_KINDS, 'net'] as const;

/** A man's season at one position, whatever his club, game by game in the order of dates; plays of grade `full` only. */
export interface ManSeason {
  readonly fielder: number;
  readonly season: number;
  readonly position: number;
  readonly chances: number;
  /** By game. */
  readonly gameChances: Float64Array;
  /** By kind, in the order of MEASURED_KINDS, and game. */
  readonly gameOuts: readonly Float64Array[];
}

/** Everybody's seasons at each position; nobody's whom nobody knows. */
export function listManSeasons(cells: GameCells<FielderRow>, table: Pick<PlayTable, 'game' | 'date'>): ManSeason[] {
  const rank = rankGames(table);
  const merged = mergeRows(
    cells,
    ({ season, fielder, position }) => `${season} ${fielder} ${position}`,
    (row) => row,
  );
  return merged.rows.flatMap(({ fielder, season, position }, r) => {
    if (fielder < 0) return [];
    const order: number[] = [];
    for (let cell = merged.start[r]; cell < merged.start[r + 1]; cell += 1) order.push(cell);
    order.sort((a, b) => rank[merged.game[a]] - rank[merged.game[b]]);
    const pick = (column: Float64Array) => Float64Array.from(order, (cell) => column[cell]);
    const kinds = merged.fullOuts.map(pick);
    const net = Float64Array.from(order, (_, k) => kinds.reduce((sum, outs) => sum + outs[k], 0));
    const gameChances = pick(merged.chances);
    const chances = gameChances.reduce((sum, c) => sum + c, 0);
    return [{ fielder, season, position, chances, gameChances, gameOuts: [...kinds, net] }];
  });
}

/** Place of each game by date; games of one day in the order of their ids. */
function rankGames({ game, date }: Pick<PlayTable, 'game' | 'date'>): Int32Array {
  const dateOf = new Map<number, number>();
  game.forEach((g, row) => {
    dateOf.set(g, Math.min(dateOf.get(g) ?? date[row], date[row]));
  });
  const order = [...dateOf.keys()].sort((a, b) => dateOf.get(a)! - dateOf.get(b)! || a - b);
  const rank = new Int32Array(order.reduce((most, g) => Math.max(most, g + 1), 0));
  order.forEach((g, place) => {
    rank[g] = place;
  });
  return rank;
}
