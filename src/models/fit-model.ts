import { choleskyInPlace, invertCholesky, solveCholeskyInPlace } from '../numeric/cholesky.ts';
import {
  type Constraints,
  centringConstraints,
  expandVector,
  reduceMatrix,
  reducePenalty,
  reduceVector,
} from './constraints.ts';
import {
  buildRows,
  type Covariates,
  compileDesign,
  type Design,
  type ModelSpec,
  multiplyInto,
  type SparseRows,
} from './design.ts';
import { type Family, familyOf } from './family.ts';
import { FitFailure, type FitRecord } from './fit-record.ts';
import type { FittedModel } from './fitted-model.ts';

/** What a model is fitted to. Columns have length `count`. */
export interface ModelData {
  readonly count: number;
  readonly covariates: Covariates;
  /** Mean response of a row: a share for binomial counts, a number for gaussian. */
  readonly response: ArrayLike<number>;
  /** Trials or case weights behind each row; 1 when left out. */
  readonly weight?: ArrayLike<number>;
  /** Known part of the linear predictor. */
  readonly offset?: ArrayLike<number>;
}

export interface FitSettings {
  /** Iterations of the weighted least squares, smoothing updates included. Default 300. */
  readonly maxIterations?: number;
  /** Relative change of the penalised deviance at which the fit has arrived. Default 1e-10. */
  readonly tolerance?: number;
  /** Derivative of the marginal log likelihood in a log smoothing parameter that counts as zero. Default 1e-2. */
  readonly smoothingTolerance?: number;
  /**
   * Precision of a weak normal prior around zero on every coefficient but the intercept, so that data which a surface can
   * separate (a catcher who gathers twice a season) still have a finite best fit. Default 0: no prior.
   */
  readonly ridge?: number;
  /** Fixed smoothing parameters, one a penalty in term order; chosen by marginal likelihood when left out. */
  readonly fixedSmoothing?: readonly number[];
}

const SMOOTHING_RANGE = [1e-7, 1e9] as const;
const SMOOTHING_START = 10;
/** One update may not multiply a smoothing parameter by more than e to this. */
const LONGEST_LOG_STEP = 5;
const RIDGE_SHARE = 1e-9;
const SEPARATED_LINEAR = 20;

/** A penalty in reduced coefficients: where its block begins, how wide it is, the matrix. */
interface PenaltyBlock {
  readonly term: number;
  readonly start: number;
  readonly width: number;
  readonly matrix: Float64Array;
}

/**
 * Penalised iteratively reweighted least squares (Wood 2017, 6.1.1) with smoothing parameters by the generalised
 * Fellner-Schall update of the Laplace marginal likelihood (Wood & Fasiolo, Biometrics 73, 2017), both in one loop: a
 * step, then an update, until neither moves; then steps alone until the gradient is zero. Deterministic.
 * Throws FitFailure, with its record, when it does not arrive.
 */
export function fitModel(spec: ModelSpec, data: ModelData, settings: FitSettings = {}): FittedModel {
  const design = compileDesign(spec);
  const rows = buildRows(design, data.covariates, data.count);
  return new Fitter(design, rows, data, settings).run();
}

class Fitter {
  private readonly design: Design;
  private readonly rows: SparseRows;
  private readonly data: ModelData;
  private readonly family: Family;
  private readonly constraints: Constraints;
  private readonly blocks: PenaltyBlock[];
  private readonly lambdas: number[];
  private readonly linear: Float64Array;
  private readonly maxIterations: number;
  private readonly tolerance: number;
  private readonly smoothingTolerance: number;
  private readonly ridge: number;
  private readonly totalWeight: number;
  private readonly notes = new Set<string>();
  private reduced: Float64Array;
  private full: Float64Array;
  private choosing: boolean;
  private smoothingGradient = 0;
  private scale = 1;

  constructor(design: Design, rows: SparseRows, data: ModelData, settings: FitSettings) {
    this.design = design;
    this.rows = rows;
    this.data = data;
    this.family = familyOf(design.spec.family);
    this.constraints = centringConstraints(design, rows, data.weight);
    this.blocks = design.terms.flatMap((term, t) => {
      const reflection = this.constraints.reflections[t];
      return term.penalties.map((penalty) => ({
        term: t,
        start: this.constraints.reducedOffsets[t],
        width: reflection === null ? term.width : term.width - 1,
        matrix: reducePenalty(term, reflection, penalty),
      }));
    });
    this.choosing = settings.fixedSmoothing === undefined && this.blocks.length > 0;
    this.lambdas =
      settings.fixedSmoothing === undefined ? this.blocks.map(() => SMOOTHING_START) : [...settings.fixedSmoothing];
    if (this.lambdas.length !== this.blocks.length) {
      throw new RangeError(
        `model ${design.spec.name} has ${this.blocks.length} penalties, received ${this.lambdas.length} smoothing parameters`,
      );
    }
    this.maxIterations = settings.maxIterations ?? 300;
    this.tolerance = settings.tolerance ?? 1e-10;
    this.smoothingTolerance = settings.smoothingTolerance ?? 1e-2;
    this.ridge = settings.ridge ?? 0;
    this.linear = new Float64Array(rows.count);
    this.reduced = new Float64Array(this.constraints.reducedWidth);
    let weight = 0;
    let response = 0;
    for (let row = 0; row < rows.count; row += 1) {
      const w = this.weightOf(row);
      weight += w;
      response += w * data.response[row];
    }
    this.totalWeight = weight;
    this.reduced[0] = weight > 0 ? this.family.startAt(response / weight) : 0;
    this.full = expandVector(design, this.constraints, this.reduced);
  }

  run(): FittedModel {
    let deviance = this.evaluate(this.full);
    const startObjective = deviance + this.roughness(this.reduced);
    let factor: Float64Array = new Float64Array(0);
    let information: Float64Array = new Float64Array(0);
    for (let iteration = 1; iteration <= this.maxIterations; iteration += 1) {
      const normal = this.normalEquations();
      information = normal.information;
      const next = Float64Array.from(normal.right);
      factor = this.factorise(information);
      if (factor.length === 0) throw this.failure('not positive definite', iteration, startObjective, deviance);
      solveCholeskyInPlace(factor, next.length, next);

      const before = deviance + this.roughness(this.reduced);
      deviance = this.stepTo(next, before);
      const after = deviance + this.roughness(this.reduced);
      // A step that lowers nothing at all has met the rounding of a very stiff penalty: that is arrival, too.
      const still = before - after <= this.tolerance * (Math.abs(after) + 0.1);
      if (this.choosing) {
        this.updateSmoothing(factor, information, deviance);
        if (
          this.smoothingGradient < this.smoothingTolerance &&
          Math.abs(before - after) <= 1e-6 * (Math.abs(after) + 0.1)
        )
          this.choosing = false;
      } else if (still) {
        return this.finish(factor, information, iteration, startObjective, deviance);
      }
    }
    throw this.failure('iteration limit', this.maxIterations, startObjective, deviance);
  }

  private weightOf(row: number): number {
    return this.data.weight === undefined ? 1 : this.data.weight[row];
  }

  /** Fills the linear predictor for full coefficients and returns the deviance. */
  private evaluate(full: Float64Array): number {
    multiplyInto(this.rows, full, this.linear);
    const { offset, response } = this.data;
    let deviance = 0;
    for (let row = 0; row < this.rows.count; row += 1) {
      if (offset !== undefined) this.linear[row] += offset[row];
      deviance += this.weightOf(row) * this.family.deviance(response[row], this.family.mean(this.linear[row]));
    }
    return deviance;
  }

  private roughness(reduced: Float64Array): number {
    let total = 0;
    for (let k = 1; k < reduced.length; k += 1) total += this.ridge * reduced[k] * reduced[k];
    return this.blocks.reduce((sum, block, j) => sum + this.lambdas[j] * quadraticForm(block, reduced), total);
  }

  /** Moves to `target`, or part of the way there when the penalised deviance would rise. Returns the new deviance. */
  private stepTo(target: Float64Array, before: number): number {
    const from = this.reduced;
    let share = 1;
    for (;;) {
      const trial = share === 1 ? target : from.map((value, k) => value + share * (target[k] - value));
      const full = expandVector(this.design, this.constraints, trial);
      const deviance = this.evaluate(full);
      const objective = deviance + this.roughness(trial);
      if (objective <= before + 1e-9 * (Math.abs(before) + 1) || share < 1e-6) {
        this.reduced = trial;
        this.full = full;
        return deviance;
      }
      share /= 2;
    }
  }

  private normalEquations(): { information: Float64Array; right: Float64Array } {
    const { count, overlap, index, value } = this.rows;
    const { response, offset } = this.data;
    const n = this.design.width;
    const a = new Float64Array(n * n);
    const b = new Float64Array(n);
    for (let row = 0; row < count; row += 1) {
      const linear = this.linear[row];
      const mean = this.family.mean(linear);
      const variance = Math.max(this.family.variance(mean), 1e-12);
      const w = this.weightOf(row) * variance;
      if (w === 0) continue;
      const working = linear - (offset === undefined ? 0 : offset[row]) + (response[row] - mean) / variance;
      const start = row * overlap;
      const end = start + overlap;
      for (let i = start; i < end; i += 1) {
        const vi = value[i];
        if (vi === 0) continue;
        const scaled = w * vi;
        const rowI = index[i] * n;
        b[index[i]] += scaled * working;
        for (let j = start; j <= i; j += 1) a[rowI + index[j]] += scaled * value[j];
      }
    }
    for (let i = 0; i < n; i += 1) for (let j = 0; j < i; j += 1) a[j * n + i] = a[i * n + j];
    return {
      information: reduceMatrix(this.design, this.constraints, a),
      right: reduceVector(this.design, this.constraints, b),
    };
  }

  /** Cholesky factor of information plus penalties; empty when even a small ridge does not make it positive definite. */
  private factorise(information: Float64Array): Float64Array {
    const n = this.constraints.reducedWidth;
    const penalised = Float64Array.from(information);
    for (let i = 1; i < n; i += 1) penalised[i * n + i] += this.ridge;
    this.blocks.forEach((block, j) => {
      for (let i = 0; i < block.width; i += 1) {
        const row = (block.start + i) * n + block.start;
        for (let k = 0; k < block.width; k += 1)
          penalised[row + k] += this.lambdas[j] * block.matrix[i * block.width + k];
      }
    });
    const factor = Float64Array.from(penalised);
    if (choleskyInPlace(factor, n) < 0) return factor;
    let trace = 0;
    for (let i = 0; i < n; i += 1) trace += penalised[i * n + i];
    for (let ridge = RIDGE_SHARE * (trace / n) + 1e-12, k = 0; k < 6; ridge *= 10, k += 1) {
      factor.set(penalised);
      for (let i = 0; i < n; i += 1) factor[i * n + i] += ridge;
      if (choleskyInPlace(factor, n) < 0) {
        this.notes.add('a small ridge was added: some coefficients are not supported by any row');
        return factor;
      }
    }
    return new Float64Array(0);
  }

  private updateSmoothing(factor: Float64Array, information: Float64Array, deviance: number): void {
    const n = this.constraints.reducedWidth;
    const covariance = invertCholesky(factor, n);
    if (!this.family.scaleKnown) {
      const edf = elementwiseSum(covariance, information);
      this.scale = deviance / Math.max(this.totalWeight - edf, 1);
    }
    const traces = this.pseudoTraces();
    this.smoothingGradient = 0;
    this.blocks.forEach((block, j) => {
      const used = blockTrace(block, covariance, n);
      const roughness = quadraticForm(block, this.reduced) / this.scale;
      const numerator = Math.max(traces[j] - used, 0);
      const gradient = 0.5 * this.lambdas[j] * (numerator - roughness);
      const logStep = Math.log(Math.max(numerator, 1e-300) / Math.max(roughness, 1e-300));
      const bounded = Math.min(Math.max(logStep, -LONGEST_LOG_STEP), LONGEST_LOG_STEP);
      const next = Math.min(Math.max(this.lambdas[j] * Math.exp(bounded), SMOOTHING_RANGE[0]), SMOOTHING_RANGE[1]);
      if (next !== this.lambdas[j]) this.smoothingGradient = Math.max(this.smoothingGradient, Math.abs(gradient));
      this.lambdas[j] = next;
    });
  }

  private pseudoTraces(): number[] {
    let at = 0;
    return this.design.terms.flatMap((term) => {
      const own = this.lambdas.slice(at, at + term.penalties.length);
      at += own.length;
      return term.pseudoTraces(own);
    });
  }

  private finish(
    factor: Float64Array,
    information: Float64Array,
    iterations: number,
    startObjective: number,
    deviance: number,
  ): FittedModel {
    const n = this.constraints.reducedWidth;
    const inverse = invertCholesky(factor, n);
    const termEdf = this.termEdf(inverse, information);
    const edf = termEdf.reduce((sum, value) => sum + value, 1);
    if (!this.family.scaleKnown) this.scale = deviance / Math.max(this.totalWeight - edf, 1);
    for (const linear of this.linear) {
      if (this.family.name === 'binomial' && Math.abs(linear) > SEPARATED_LINEAR) {
        this.notes.add('some rows are certain: fitted chances closer to 0 or 1 than 1e-8');
        break;
      }
    }
    return {
      design: this.design,
      coefficients: this.full,
      smoothing: [...this.lambdas],
      termEdf,
      edf,
      scale: this.scale,
      record: this.record('converged', iterations, startObjective, deviance),
    };
  }

  /** Effective degrees of freedom by term: traces of the blocks of (information + penalty)^-1 information. */
  private termEdf(inverse: Float64Array, information: Float64Array): number[] {
    const n = this.constraints.reducedWidth;
    return this.design.terms.map((term, t) => {
      const start = this.constraints.reducedOffsets[t];
      const end = start + (term.centred ? term.width - 1 : term.width);
      let trace = 0;
      for (let i = start; i < end; i += 1)
        for (let k = 0; k < n; k += 1) trace += inverse[i * n + k] * information[k * n + i];
      return trace;
    });
  }

  private record(
    stopped: FitRecord['stopped'],
    iterations: number,
    startObjective: number,
    deviance: number,
  ): FitRecord {
    return {
      rows: this.rows.count,
      weight: this.totalWeight,
      iterations,
      startObjective,
      endObjective: deviance + this.roughness(this.reduced),
      deviance,
      gradientNorm: this.scoreNorm(),
      smoothingGradient: this.smoothingGradient,
      tolerance: this.tolerance,
      stopped,
      notes: [...this.notes],
    };
  }

  /** Largest entry of X'(y - mean) - S beta in reduced coefficients, relative to the total weight. */
  private scoreNorm(): number {
    const { count, overlap, index, value } = this.rows;
    const score = new Float64Array(this.design.width);
    for (let row = 0; row < count; row += 1) {
      const residual = this.weightOf(row) * (this.data.response[row] - this.family.mean(this.linear[row]));
      const end = (row + 1) * overlap;
      for (let at = row * overlap; at < end; at += 1) score[index[at]] += residual * value[at];
    }
    const reduced = reduceVector(this.design, this.constraints, score);
    for (let k = 1; k < reduced.length; k += 1) reduced[k] -= this.ridge * this.reduced[k];
    this.blocks.forEach((block, j) => {
      for (let i = 0; i < block.width; i += 1) {
        let sum = 0;
        for (let k = 0; k < block.width; k += 1)
          sum += block.matrix[i * block.width + k] * this.reduced[block.start + k];
        reduced[block.start + i] -= this.lambdas[j] * sum;
      }
    });
    return reduced.reduce((largest, entry) => Math.max(largest, Math.abs(entry)), 0) / Math.max(this.totalWeight, 1);
  }

  private failure(
    stopped: FitRecord['stopped'],
    iterations: number,
    startObjective: number,
    deviance: number,
  ): FitFailure {
    return new FitFailure(this.design.spec.name, this.record(stopped, iterations, startObjective, deviance));
  }
}

function quadraticForm(block: PenaltyBlock, reduced: Float64Array): number {
  let total = 0;
  for (let i = 0; i < block.width; i += 1) {
    let sum = 0;
    for (let k = 0; k < block.width; k += 1) sum += block.matrix[i * block.width + k] * reduced[block.start + k];
    total += sum * reduced[block.start + i];
  }
  return total;
}

function blockTrace(block: PenaltyBlock, covariance: Float64Array, n: number): number {
  let trace = 0;
  for (let i = 0; i < block.width; i += 1) {
    const row = (block.start + i) * n + block.start;
    for (let k = 0; k < block.width; k += 1) trace += covariance[row + k] * block.matrix[i * block.width + k];
  }
  return trace;
}

function elementwiseSum(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += a[i] * b[i];
  return sum;
}
