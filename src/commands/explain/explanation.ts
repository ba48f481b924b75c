import type { Grade } from '../../chances/grades.ts';
import type { PlayAlignment } from '../../chances/play-alignment.ts';
import type { DefenderView } from '../../ledger/view-defenders.ts';

export interface ExplainedDefender extends DefenderView {
  readonly fielderId: string | null;
  readonly name: string | null;
}

export interface ExplainedEntry {
  readonly position: number;
  readonly name: string | null;
  readonly kind: string;
  readonly outs: number;
  readonly runs: number;
}

/** A play whose placement the opening mark averaged over. */
export interface Lender {
  readonly playId: string;
  readonly date: string;
  readonly team: string;
  readonly bearingDeg: number;
}

/** One play's story in numbers; NaN where the data say nothing. */
export interface Explanation {
  readonly playId: string;
  readonly ballKind: string;
  readonly date: string;
  readonly inning: number;
  readonly outsBefore: number;
  /** Occupied bases as bits: 1 first, 2 second, 4 third. */
  readonly bases: number;
  readonly battingTeam: string;
  readonly fieldingTeam: string;
  readonly batter: string;
  readonly batterSide: string;
  readonly exitSpeedMph: number;
  readonly bearingDeg: number;
  readonly launchAngleDeg: number;
  readonly batterToFirstS: number;
  readonly result: string;
  readonly alignment: PlayAlignment;
  readonly grade: Grade;
  readonly flags: string;
  readonly marks: {
    readonly opening: number;
    readonly openingDirect: number;
    readonly set: number;
    readonly gathered: number;
    readonly closed: number;
    readonly stakeRuns: number;
  };
  readonly opening: { readonly low: number; readonly high: number; readonly lenders: readonly Lender[] };
  /** In chance order; empty below grade `full`. */
  readonly defenders: readonly ExplainedDefender[];
  readonly gather: {
    readonly position: number;
    readonly name: string | null;
    readonly xFt: number;
    readonly yFt: number;
    readonly timeS: number;
    readonly target: string;
    readonly targetRecorded: boolean;
    readonly timeLeftS: number;
    readonly throwFt: number;
  } | null;
  readonly touchedBy: number;
  readonly entries: readonly ExplainedEntry[];
}
