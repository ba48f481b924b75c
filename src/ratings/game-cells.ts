import { FULL } from '../chances/grades.ts';
import type { PlayTable } from '../chances/play-table.ts';
import type { ClassLedger } from '../ledger/class-ledger.ts';
import { ENTRY_KINDS, TURN } from '../ledger/entry-kinds.ts';
import { type FielderRow, FielderRows } from '../ledger/fielder-rows.ts';

/** What is summed by row and game. Every column has one number a cell. */
export interface CellColumns {
  /** Runs by kind, in the order of ENTRY_KINDS. */
  readonly runs: readonly Float64Array[];
  /** Outs of placement, reach, finish and turn on plays of grade `full`: the only ones on which chances are known. */
  readonly fullOuts: readonly Float64Array[];
  /** Sum of his h. */
  readonly chances: Float64Array;
  readonly plays: Float64Array;
  readonly fullPlays: Float64Array;
  /** What even spots would have been worth more, outs and runs. */
  readonly roomOuts: Float64Array;
  readonly roomRuns: Float64Array;
}

/** Sums by row (a man, a club) and game: row r has the cells `start[r]` to `start[r + 1] - 1`, in the order of games. */
export interface GameCells<Row> extends CellColumns {
  readonly rows: readonly Row[];
  readonly start: Int32Array;
  /** Index into the table's games. */
  readonly game: Int32Array;
}

/** Kinds whose rates a chance are known: those before `ground`. */
export const RATED_KINDS = ENTRY_KINDS.slice(0, TURN + 1);

/** Sums by season, defender, position, club and game, over all classes of balls. All ledgers are of the same table. */
export function collectGameCells(ledgers: readonly ClassLedger[]): GameCells<FielderRow> {
  const { table } = ledgers[0].plays;
  const index = new CellIndex(table);
  const numbered = ledgers.map((ledger) => numberCells(ledger, index));
  const columns = allocateColumns(index.row.length);
  ledgers.forEach((ledger, k) => {
    addLedger(ledger, numbered[k], columns);
  });
  return byRowAndGame(index.rows, Int32Array.from(index.row), Int32Array.from(index.game), columns);
}

/** The same sums over rows of equal key, each of which becomes what `merged` makes of the first of them. */
export function mergeRows<Row, Merged>(
  cells: GameCells<Row>,
  keyOf: (row: Row) => string,
  merged: (row: Row) => Merged,
): GameCells<Merged> {
  const numbers = new Map<string, number>();
  const rows: Merged[] = [];
  const rowOf = new Int32Array(cells.game.length);
  cells.rows.forEach((row, r) => {
    const key = keyOf(row);
    let number = numbers.get(key);
    if (number === undefined) {
      number = rows.push(merged(row)) - 1;
      numbers.set(key, number);
    }
    rowOf.fill(number, cells.start[r], cells.start[r + 1]);
  });
  return byRowAndGame(rows, rowOf, cells.game, cells);
}

/** Numbers cells, and the rows that they are of, in the order in which they appear. */
class CellIndex {
  /** Row and game by cell. */
  readonly row: number[] = [];
  readonly game: number[] = [];
  private readonly table: PlayTable;
  private readonly fielders: FielderRows;
  private readonly numbers = new Map<number, number>();
  /** The last cell by row. */
  private readonly last: number[] = [];

  constructor(table: PlayTable) {
    this.table = table;
    this.fielders = new FielderRows(table);
  }

  get rows(): readonly FielderRow[] {
    return this.fielders.rows;
  }

  cellOf(tableRow: number, position: number): number {
    const { table, last } = this;
    const row = this.fielders.rowOf(tableRow, position);
    const game = table.game[tableRow];
    const known = last[row];
    if (known !== undefined && this.game[known] === game) return known;
    const key = row * table.games.length + game;
    let cell = this.numbers.get(key);
    if (cell === undefined) {
      this.game.push(game);
      cell = this.row.push(row) - 1;
      this.numbers.set(key, cell);
    }
    last[row] = cell;
    return cell;
  }
}

function allocateColumns(count: number): CellColumns {
  const column = () => new Float64Array(count);
  return {
    runs: ENTRY_KINDS.map(column),
    fullOuts: RATED_KINDS.map(column),
    chances: column(),
    plays: column(),
    fullPlays: column(),
    roomOuts: column(),
    roomRuns: column(),
  };
}

/** Cells of a ledger: of each man of each play, and of each entry. */
interface LedgerCells {
  readonly ofMan: Int32Array;
  readonly ofEntry: Int32Array;
}

function numberCells({ plays, entries }: ClassLedger, index: CellIndex): LedgerCells {
  const { men, row } = plays;
  const ofMan = new Int32Array(plays.count * men);
  for (let at = 0; at < plays.count; at += 1) {
    for (let k = 0; k < men; k += 1) ofMan[at * men + k] = index.cellOf(row[at], k + 1);
  }
  const ofEntry = new Int32Array(entries.count);
  for (let e = 0; e < ofEntry.length; e += 1) {
    const [at, position] = [entries.play[e], entries.position[e]];
    // Somebody whom the class asks nothing about may yet have turned two.
    ofEntry[e] = position <= men ? ofMan[at * men + position - 1] : index.cellOf(row[at], position);
  }
  return { ofMan, ofEntry };
}

function addLedger(
  { plays, entries, grade, chance, room, stakeRuns }: ClassLedger,
  { ofMan, ofEntry }: LedgerCells,
  to: CellColumns,
) {
  for (let at = 0; at < plays.count; at += 1) {
    for (let man = at * plays.men; man < (at + 1) * plays.men; man += 1) {
      const cell = ofMan[man];
      to.plays[cell] += 1;
      if (grade[at] === FULL) to.fullPlays[cell] += 1;
      to.chances[cell] += chance[man];
      to.roomOuts[cell] += room[man];
      to.roomRuns[cell] += room[man] * stakeRuns[at];
    }
  }
  for (let e = 0; e < entries.count; e += 1) {
    const at = entries.play[e];
    const kind = entries.kind[e];
    const cell = ofEntry[e];
    to.runs[kind][cell] += entries.runs[e];
    if (kind < RATED_KINDS.length && grade[at] === FULL) to.fullOuts[kind][cell] += entries.outs[e];
  }
}

/** Adds up what falls on the same row and game, and lays the cells out row after row. */
function byRowAndGame<Row>(rows: readonly Row[], row: Int32Array, game: Int32Array, from: CellColumns): GameCells<Row> {
  const order = Int32Array.from(row, (_, cell) => cell).sort((a, b) => row[a] - row[b] || game[a] - game[b]);
  const to = new Int32Array(order.length);
  const start = new Int32Array(rows.length + 1);
  let count = 0;
  order.forEach((cell, place) => {
    const before = place > 0 ? order[place - 1] : -1;
    if (before < 0 || row[before] !== row[cell] || game[before] !== game[cell]) {
      start[row[cell] + 1] += 1;
      count += 1;
    }
    to[cell] = count - 1;
  });
  for (let r = 0; r < rows.length; r += 1) start[r + 1] += start[r];
  const gameOf = new Int32Array(count);
  for (const cell of order) gameOf[to[cell]] = game[cell];
  const sum = (column: Float64Array) => {
    const out = new Float64Array(count);
    for (const cell of order) out[to[cell]] += column[cell];
    return out;
  };
  return {
    rows,
    start,
    game: gameOf,
    runs: from.runs.map(sum),
    fullOuts: from.fullOuts.map(sum),
    chances: sum(from.chances),
    plays: sum(from.plays),
    fullPlays: sum(from.fullPlays),
    roomOuts: sum(from.roomOuts),
    roomRuns: sum(from.roomRuns),
  };
}
