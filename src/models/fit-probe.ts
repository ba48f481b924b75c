import type { Covariates, Design } from './design.ts';
import type { Family } from './family.ts';
import { linearPredictorInto } from './linear-predictor.ts';

/**
 * A few rows of a fit's data, spread evenly over it, with the deviance that the model has on them. A file of a model
 * carries them, so that whoever loads it can recompute part of its objective without the data.
 */
export interface FitProbe {
  readonly covariates: Readonly<Record<string, readonly (number | null)[]>>;
  readonly response: readonly number[];
  readonly offset: readonly number[];
  /** Summed deviance of these rows, each with weight 1. */
  readonly deviance: number;
}

const PROBE_ROWS = 48;

export function probeRows(
  design: Design,
  covariates: Covariates,
  response: ArrayLike<number>,
  offset: ArrayLike<number> | undefined,
  count: number,
): Omit<FitProbe, 'deviance'> {
  const n = Math.min(PROBE_ROWS, count);
  const rows = Array.from({ length: n }, (_, k) => Math.floor(((k + 0.5) * count) / n));
  return {
    // JSON has no NaN: a missing value is null.
    covariates: Object.fromEntries(
      design.covariates.map((name) => [
        name,
        rows.map((row) => (Number.isNaN(covariates[name][row]) ? null : covariates[name][row])),
      ]),
    ),
    response: rows.map((row) => response[row]),
    offset: rows.map((row) => offset?.[row] ?? 0),
  };
}

/** Deviance of a model's coefficients on probe rows. */
export function probeDeviance(
  design: Design,
  family: Family,
  coefficients: Float64Array,
  probe: Omit<FitProbe, 'deviance'>,
): number {
  const count = probe.response.length;
  const covariates = Object.fromEntries(
    Object.entries(probe.covariates).map(([name, values]) => [name, values.map((value) => value ?? Number.NaN)]),
  );
  const linear = new Float64Array(count);
  linearPredictorInto(design, coefficients, covariates, count, linear);
  return probe.response.reduce(
    (sum, y, row) => sum + family.deviance(y, family.mean(linear[row] + probe.offset[row])),
    0,
  );
}
