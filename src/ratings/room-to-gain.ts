import { PLACEMENT } from '../ledger/entry-kinds.ts';
import type { FielderRow } from '../ledger/fielder-rows.ts';
import { type GameCells, mergeRows } from './game-cells.ts';
import type { PoissonWeights } from './poisson-weights.ts';
import { RowReplicates } from './row-replicates.ts';
import { middle80, standardErrorOf } from './spread.ts';

/** What even spots would have been worth over a season's plays of grade `full`, everything else the same. */
export interface RoomToGain {
  readonly season: number;
  /** Index into the table's people; null for a club, all of whose men are moved at once. */
  readonly fielder: number | null;
  readonly position: number | null;
  readonly team: number;
  readonly plays: number;
  readonly gainOuts: number;
  readonly gainRuns: number;
  /** NaN without replicates, or with too few games. */
  readonly gainRunsSe: number;
  readonly lo80: number;
  readonly hi80: number;
}

const CATCHER = 2;

/**
 * Room to gain of every man who moves and of every club (method.md 10), largest first. A man's is the mean over the even spots
 * of the mark with him there, less the set mark. A club's is opening less set: its placement, turned round. Men's do not
 * add up to their club's.
 */
export function estimateRoom(cells: GameCells<FielderRow>, weights: PoissonWeights | null): RoomToGain[] {
  const men = roomOf(cells, cells.roomOuts, cells.roomRuns, weights)
    .filter(({ row: { fielder, position }, plays }) => fielder >= 0 && position > CATCHER && plays > 0)
    .map(({ row, ...room }) => ({ ...row, ...room }));
  const clubs = mergeRows(
    cells,
    ({ season, team }) => `${season} ${team}`,
    ({ season, team }) => ({ season, team }),
  );
  const negative = (column: Float64Array) => column.map((value) => -value);
  const placed = roomOf(clubs, negative(clubs.fullOuts[PLACEMENT]), negative(clubs.runs[PLACEMENT]), weights);
  const playsOf = clubPlays(cells);
  const teams = placed.map(({ row, ...room }) => ({
    ...row,
    ...room,
    fielder: null,
    position: null,
    plays: playsOf.get(`${row.season} ${row.team}`) ?? 0,
  }));
  return [...men, ...teams.filter(({ plays }) => plays > 0)].sort((a, b) => b.gainRuns - a.gainRuns);
}

/** Every play has one catcher, known or not. */
function clubPlays({ rows, start, fullPlays }: GameCells<FielderRow>): Map<string, number> {
  const plays = new Map<string, number>();
  rows.forEach(({ season, team, position }, r) => {
    if (position !== CATCHER) return;
    const key = `${season} ${team}`;
    plays.set(key, (plays.get(key) ?? 0) + sumOf(fullPlays, start[r], start[r + 1]));
  });
  return plays;
}

function sumOf(column: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let cell = from; cell < to; cell += 1) sum += column[cell];
  return sum;
}

/** Totals of two columns of cells by row, with their errors. */
export function roomOf<Row>(
  cells: Pick<GameCells<Row>, 'rows' | 'start' | 'game' | 'fullPlays'>,
  outs: Float64Array,
  runs: Float64Array,
  weights: PoissonWeights | null,
) {
  const row = weights === null ? null : new RowReplicates(weights);
  const totals = new Float64Array(weights?.replicates ?? 0);
  return cells.rows.map((of, r) => {
    const [from, to] = [cells.start[r], cells.start[r + 1]];
    row?.setRow({ game: cells.game, from, to });
    row?.totalsInto(runs, totals);
    return {
      row: of,
      plays: sumOf(cells.fullPlays, from, to),
      gainOuts: sumOf(outs, from, to),
      gainRuns: sumOf(runs, from, to),
      gainRunsSe: row === null ? Number.NaN : standardErrorOf(totals),
      ...(row === null ? { lo80: Number.NaN, hi80: Number.NaN } : middle80(totals)),
    };
  });
}
