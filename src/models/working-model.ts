import { choleskyInPlace, logDeterminant, solveCholeskyInPlace } from '../numeric/cholesky.ts';
import { addPenalties, dotProduct, type Penalties } from './penalties.ts';
import type { NormalEquations } from './row-sums.ts';

/** The quadratic that stands for the likelihood during one step, with the barrier of monotone terms added. */
export interface WorkingModel extends NormalEquations {
  /** Full n x n matrix of the barrier, null where none is active. */
  readonly barrier: Float64Array | null;
}

/** Minimum of the working model under given smoothing parameters. */
export interface WorkingSolution {
  readonly factor: Float64Array;
  readonly reduced: Float64Array;
  /** b' beta: how far the quadratic falls below its value at zero. */
  readonly drop: number;
  readonly logDeterminant: number;
  /** Whether a small ridge had to be added. */
  readonly propped: boolean;
}

const RIDGE_SHARE = 1e-9;
const RIDGE_TRIES = 6;

/** Null when even a small ridge does not make the matrix positive definite. */
export function solveWorking(
  working: WorkingModel,
  penalties: Penalties,
  lambdas: ArrayLike<number>,
): WorkingSolution | null {
  const n = working.right.length;
  const penalised = Float64Array.from(working.information);
  addPenalties(penalties, lambdas, penalised, n);
  if (working.barrier !== null) for (let i = 0; i < penalised.length; i += 1) penalised[i] += working.barrier[i];
  const factor = Float64Array.from(penalised);
  let propped = false;
  if (choleskyInPlace(factor, n) >= 0) {
    propped = true;
    if (!factorPropped(penalised, factor, n)) return null;
  }
  const reduced = Float64Array.from(working.right);
  solveCholeskyInPlace(factor, n, reduced);
  return {
    factor,
    reduced,
    drop: dotProduct(working.right, reduced),
    logDeterminant: logDeterminant(factor, n),
    propped,
  };
}

/** Some coefficients are not held by any row or penalty: holds them at zero, as weakly as rounding allows. */
function factorPropped(penalised: Float64Array, factor: Float64Array, n: number): boolean {
  let trace = 0;
  for (let i = 0; i < n; i += 1) trace += penalised[i * n + i];
  let ridge = RIDGE_SHARE * (trace / n) + 1e-12;
  for (let k = 0; k < RIDGE_TRIES; k += 1, ridge *= 10) {
    factor.set(penalised);
    for (let i = 0; i < n; i += 1) factor[i * n + i] += ridge;
    if (choleskyInPlace(factor, n) < 0) return true;
  }
  return false;
}
