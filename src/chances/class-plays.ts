import type { PlayTable } from './play-table.ts';

/** The plays of one class of ball, with what draws, marks and ledger need to know of any class. Columns have length `count`. */
export interface ClassPlays {
  readonly table: PlayTable;
  readonly count: number;
  /** Row in the table. */
  readonly row: Int32Array;
  readonly season: Int32Array;
  /** NaN when not recorded. */
  readonly bearingDeg: Float64Array;
  /** Base-out state, outs * 8 + bases: 0 to 23. */
  readonly state: Uint8Array;
  /** Positions 1 to `men` may gather such a ball. */
  readonly men: number;
  /** count * men * 2: x and y by position. Pitcher and catcher have their usual places when not seen. */
  readonly starts: Float64Array;
  /** Code of GRADES. */
  readonly grade: Uint8Array;
  /** 1 when the play ended with at least one out. */
  readonly closed: Uint8Array;
  /** Bits of FLAGS. */
  readonly flags: Uint16Array;
  /** Bits of FLAGS with which a play cannot lend its ball and placement; when left out, those of a grounder without line or starts. */
  readonly unfitToLend?: number;
}
