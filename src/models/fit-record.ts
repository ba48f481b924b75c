/** How far a covariate was moved by binning, and how much that can matter. */
export interface BinningRecord {
  /** The term's label and the covariate. */
  readonly term: string;
  readonly covariate: string;
  /** The farthest that a row was moved, in units of the covariate. */
  readonly farthestMove: number;
  /** No row's linear predictor is off by more than this: the farthest move times the steepest slope of the fitted term. */
  readonly largestError: number;
}

/** What happened during a fit; every fitted model carries one. */
export interface FitRecord {
  /** Rows and total weight that were fitted. */
  readonly rows: number;
  readonly weight: number;
  /** Rows left after those that no term can tell apart were merged; absent when nothing was merged. */
  readonly cells?: number;
  /** Covariates that were rounded to bins, by term; absent when none was. */
  readonly binning?: readonly BinningRecord[];
  readonly iterations: number;
  /** Penalised deviance at the start and at the end. */
  readonly startObjective: number;
  readonly endObjective: number;
  readonly deviance: number;
  /** Largest entry of the penalised score at the end, relative to the total weight. */
  readonly gradientNorm: number;
  /** Largest derivative of the marginal log likelihood in a log smoothing parameter at the end; 0 when they were fixed. */
  readonly smoothingGradient: number;
  readonly tolerance: number;
  readonly stopped: StopReason;
  /** Things a reader should know: separation, coefficients without rows, a ridge that had to be added. */
  readonly notes: readonly string[];
}

export type StopReason = 'converged' | 'iteration limit' | 'not positive definite' | 'not finite';

/** A fit that did not arrive; the record says how far it came. */
export class FitFailure extends Error {
  override readonly name = 'FitFailure';
  readonly record: FitRecord;

  constructor(model: string, record: FitRecord) {
    super(
      `model ${model} did not converge: ${record.stopped} after ${record.iterations} iterations on ${record.rows} rows`,
    );
    this.record = record;
  }
}
