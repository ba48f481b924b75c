import type { ClassPlays } from '../chances/class-plays.ts';
import type { Balance } from './balance.ts';
import type { EntryList } from './entry-list.ts';

/** All marks and entries of a class of plays. Columns have the length of `plays`, in its order. */
export interface ClassLedger {
  readonly plays: ClassPlays;
  readonly opening: Float64Array;
  readonly openingDirect: Float64Array;
  /** NaN below grade `full`. */
  readonly set: Float64Array;
  /** NaN for grade `whole`. */
  readonly gathered: Float64Array;
  readonly grade: Uint8Array;
  /** Bits of FLAGS. */
  readonly flags: Uint16Array;
  /** Runs between this ball being a hit and being an out. */
  readonly stakeRuns: Float64Array;
  readonly entries: EntryList;
  readonly balance: Balance;
  /** count * men: the chance h of each man on plays of grade `full` on which the ball came to him; else 0. */
  readonly chance: Float64Array;
  /**
   * count * men: outs that a man's even spots would have been worth more than his start, all others where they stood
   * (method.md 10, room to gain); 0 below grade `full`.
   */
  readonly room: Float64Array;
}
