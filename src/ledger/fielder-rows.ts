import type { PlayTable } from '../chances/play-table.ts';
import { POSITION_COUNT } from '../diamond/play-codes.ts';

/** A man at a position for a club in a season. */
export interface FielderRow {
  readonly season: number;
  /** Index into the table's people, -1 when nobody knows who stood there. */
  readonly fielder: number;
  readonly position: number;
  /** Index into the table's teams. */
  readonly team: number;
}

/** Numbers the fielders of a table's plays in the order in which they are asked for. */
export class FielderRows {
  readonly rows: FielderRow[] = [];
  private readonly table: PlayTable;
  private readonly numbers = new Map<number, number>();
  /** The last row by club and position: consecutive plays mostly are the same man's. */
  private readonly last: Int32Array;

  constructor(table: PlayTable) {
    this.table = table;
    this.last = new Int32Array(table.teams.length * (POSITION_COUNT + 1)).fill(-1);
  }

  /** Number of the row of whoever stood at a position on the play in `tableRow`. */
  rowOf(tableRow: number, position: number): number {
    const { table, last, rows, numbers } = this;
    const fielder = table.fielder[tableRow * POSITION_COUNT + position - 1];
    const team = table.fieldingTeam[tableRow];
    const season = table.season[tableRow];
    const slot = team * (POSITION_COUNT + 1) + position;
    const known = last[slot];
    if (known >= 0 && rows[known].fielder === fielder && rows[known].season === season) return known;
    const key =
      ((season * (table.people.length + 1) + fielder + 1) * (POSITION_COUNT + 1) + position) * table.teams.length +
      team;
    let row = numbers.get(key);
    if (row === undefined) {
      row = rows.push({ season, fielder, position, team }) - 1;
      numbers.set(key, row);
    }
    last[slot] = row;
    return row;
  }
}
