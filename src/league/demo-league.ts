import type { PlayTable } from '../chances/play-table.ts';
import type { FieldTimeColumns } from './season/field-time.ts';
import type { LeagueTruth } from './truth/league-truth.ts';

/** People as columns; row k is index k of the plays' people. */
export interface PeopleColumns {
  readonly personId: readonly string[];
  readonly name: readonly string[];
  /** `L` or `R`. */
  readonly bats: readonly string[];
  readonly throws: readonly string[];
  readonly homeToFirstS: Float64Array;
  /** ISO dates. */
  readonly born: readonly string[];
}

/** Invented seasons whose true skills are known (method.md 13). */
export interface DemoLeague {
  readonly plays: PlayTable;
  readonly people: PeopleColumns;
  readonly fieldTime: FieldTimeColumns;
  readonly truth: LeagueTruth;
}

export interface LeagueOptions {
  readonly seasons: number;
  readonly teams: number;
  readonly seed: number;
  /** Balls in play a season, at least; the game under way is played to its end. Default 25,000. */
  readonly ballsPerSeason?: number;
  /** Year of the first season. Default 2031. */
  readonly firstYear?: number;
  /**
   * First season under the two-a-side rule, which all clubs obey from then on; a year after the last season means never.
   * Default the third season, so that two have overshifts.
   */
  readonly twoASideFrom?: number;
}
