/** What happened during a fit; every fitted model carries one. */
export interface FitRecord {
  /** Rows and total weight that were fitted. */
  readonly rows: number;
  readonly weight: number;
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
  readonly stopped: 'converged' | 'iteration limit' | 'not positive definite';
  /** Things a reader should know: separation, a ridge that had to be added. */
  readonly notes: readonly string[];
}

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
