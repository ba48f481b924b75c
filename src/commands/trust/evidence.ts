import type { Grade } from '../../chances/grades.ts';
import type { Quality, ReachCell } from '../../chances/trust/quality.ts';
import type { TravelErrors } from '../../chances/trust/travel-errors.ts';
import type { Shifts } from '../../ledger/balance.ts';
import type { FitRecord } from '../../models/fit-record.ts';
import type { DataShares } from './data-shares.ts';

/** One model of the last build. */
export interface ModelSummary {
  readonly name: string;
  readonly terms: readonly string[];
  readonly coefficients: number;
  /** Effective degrees of freedom. */
  readonly edf: number;
  readonly record: FitRecord;
}

/** A season and grade, the shifts that balanced its marks, and which of them are large. */
export interface BalanceView extends Shifts {
  readonly season: number;
  readonly grade: Grade;
  readonly plays: number;
  readonly large: readonly (keyof Shifts)[];
}

/** What the verdict rests on. */
export interface TrustEvidence {
  readonly book: string;
  readonly grounders: number;
  readonly games: number;
  readonly folds: number;
  readonly models: readonly ModelSummary[];
  /** In the order of the questions (answers.ts); those about men all positions together (position 0), then each with any rows. */
  readonly quality: readonly Quality[];
  readonly travel: TravelErrors | null;
  /** What reach leaves over by gap and arrival, by position. */
  readonly residuals: readonly { readonly position: number; readonly cells: readonly ReachCell[] }[];
  readonly balance: readonly BalanceView[];
  readonly data: DataShares;
}
