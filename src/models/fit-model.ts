import { type Constraints, centringConstraints, expandMatrix, expandVector, reduceVector } from './constraints.ts';
import { type Covariates, compileDesign, type Design, type ModelSpec } from './design.ts';
import { type Estimate, estimate } from './estimate.ts';
import { type Family, familyOf } from './family.ts';
import { probeDeviance, probeRows } from './fit-probe.ts';
import { type BinningRecord, FitFailure, type FitRecord } from './fit-record.ts';
import { startingSmoothing } from './fit-start.ts';
import type { FittedModel } from './fitted-model.ts';
import { type FitRows, GeneralisedLinear } from './generalised-linear.ts';
import { mergeRows, pickNumbers, pickRows } from './merge-rows.ts';
import { MonotoneBarrier, straightenMonotone } from './monotone-barrier.ts';
import { penaltiesOf } from './penalties.ts';
import { rowOrder } from './sum-plan.ts';
import { type DesignRows, termRows } from './term-rows.ts';
import { termLabel, termMargins } from './terms.ts';

/** What a model is fitted to. Columns have length `count`. */
export interface ModelData {
  readonly count: number;
  readonly covariates: Covariates;
  /** Mean response of a row: a share for binomial counts, a number for gaussian, a mean count for poisson. */
  readonly response: ArrayLike<number>;
  /** Trials or cases behind each row, 0 or more; 1 when left out. A row of weight 3 counts as three rows. */
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
  /**
   * Bins a knot interval that covariates of smooths are rounded to; 0 keeps every value. Default 0 up to 2,000 rows, else
   * 20 (gaussian: 100). A covariate with 400 or fewer different values is never rounded. The record bounds what rounding can have done.
   */
  readonly binsPerSegment?: number;
  /** Where to begin: a fit of the same specification to like data. The result is the same, sooner. */
  readonly start?: Pick<FittedModel, 'coefficients' | 'smoothing'>;
}

const SEPARATED_LINEAR = 20;
const MOST_EXACT_ROWS = 2000;
/** What rounding does to a chance is far below its error; times and distances may be recorded as exactly as they are. */
const DEFAULT_BINS = { scaleKnown: 20, scaleEstimated: 100 };
/** Steepness of the barrier of monotone terms, relative to the weight of the data. */
const BARRIER_STEEPNESS = 1e4;

/**
 * Fits a model: coefficients by penalised maximum likelihood, smoothing parameters by restricted marginal likelihood of the
 * working model (docs/engine.md states both). Deterministic. Throws RangeError for data that cannot be used, FitFailure
 * with its record when it does not arrive.
 */
export function fitModel(spec: ModelSpec, data: ModelData, settings: FitSettings = {}): FittedModel {
  const family = familyOf(spec.family);
  const design = compileDesign(spec);
  checkData(design, family, data);
  const rows = prepareRows(design, family, data, settings);
  const constraints = centringConstraints(design, rows.rows, rows.weight);
  const ridge = settings.ridge ?? 0;
  const penalties = penaltiesOf(design, constraints, ridge);
  const likelihood = new GeneralisedLinear(design, constraints, family, rows);
  const barrier = new MonotoneBarrier(design, constraints, BARRIER_STEEPNESS * Math.max(likelihood.weight, 1));
  const lambdas = startingSmoothing(spec.name, penalties, settings);
  const plain = { reduced: plainStart(constraints, family, data), lambdas: lambdas.plain };
  const earlier = settings.start && {
    reduced: earlierStart(design, constraints, settings.start.coefficients),
    lambdas: lambdas.earlier,
  };
  const found = estimate(likelihood, penalties, barrier, plain, earlier ?? null, {
    maxIterations: settings.maxIterations ?? 300,
    tolerance: settings.tolerance ?? 1e-10,
    smoothingTolerance: settings.smoothingTolerance ?? 1e-2,
    choosing: settings.fixedSmoothing === undefined,
  });
  const coefficients = straightenMonotone(design, expandVector(design, constraints, found.reduced));
  const binning = binningRecord(design, rows.rows, coefficients);
  const record: FitRecord = {
    rows: data.count,
    weight: likelihood.weight,
    iterations: found.iterations,
    startObjective: found.startObjective,
    endObjective: found.objective,
    deviance: found.deviance,
    gradientNorm: found.gradientNorm,
    smoothingGradient: found.smoothingGradient,
    tolerance: settings.tolerance ?? 1e-10,
    stopped: found.stopped,
    notes: notesOf(design, constraints, found, family, likelihood.farthestLinear()),
    ...(rows.rows.count < data.count ? { cells: rows.rows.count } : {}),
    ...(binning.length > 0 ? { binning } : {}),
  };
  if (found.stopped !== 'converged') throw new FitFailure(spec.name, record);
  const termEdf = design.terms.map((_, t) => {
    const at = constraints.reducedOffsets[t];
    return found.edfs.subarray(at, at + constraints.reducedWidths[t]).reduce((sum, value) => sum + value, 0);
  });
  const edf = found.edfs.reduce((sum, value) => sum + value, 0);
  const scale = family.scaleKnown ? 1 : found.deviance / Math.max(likelihood.weight - edf, 1);
  const probe = probeRows(design, data.covariates, data.response, data.offset, data.count);
  return {
    design,
    coefficients,
    smoothing: [...found.lambdas],
    termEdf,
    edf,
    scale,
    covariance: expandMatrix(design, constraints, found.inverse).map((value) => value * scale),
    ridge,
    probe: { ...probe, deviance: probeDeviance(design, family, coefficients, probe) },
    record,
  };
}

function checkData(design: Design, family: Family, { count, response, weight, offset }: ModelData): void {
  const { name } = design.spec;
  for (const [what, column] of Object.entries({ response, weight, offset })) {
    if (column !== undefined && column.length !== count)
      throw new RangeError(`model ${name} needs ${count} values of ${what}, received ${column.length}`);
  }
  for (let row = 0; row < count; row += 1) {
    const w = weight?.[row] ?? 1;
    if (!(w >= 0 && w < Number.POSITIVE_INFINITY))
      throw new RangeError(`weights of model ${name} are numbers of 0 or more, received ${w} in row ${row}`);
    if (!family.allows(response[row]))
      throw new RangeError(`a ${family.name} response cannot be ${response[row]} (model ${name}, row ${row})`);
    if (offset !== undefined && !Number.isFinite(offset[row]))
      throw new RangeError(`offsets of model ${name} are finite numbers, received ${offset[row]} in row ${row}`);
  }
}

function prepareRows(design: Design, family: Family, data: ModelData, settings: FitSettings): FitRows {
  const { count, covariates, response } = data;
  const usual = family.scaleKnown ? DEFAULT_BINS.scaleKnown : DEFAULT_BINS.scaleEstimated;
  const bins = settings.binsPerSegment ?? (count > MOST_EXACT_ROWS ? usual : 0);
  if (!Number.isInteger(bins) || bins < 0)
    throw new RangeError(`binsPerSegment is a whole number of 0 or more, received ${bins}`);
  const rows = termRows(design, covariates, count, bins);
  const merged = data.offset === undefined ? mergeRows(rows, response, data.weight) : null;
  if (merged !== null) {
    // Deviances of an exponential family part into that around the cell's mean and that of the cell's mean.
    let withinDeviance = 0;
    const { cell } = merged;
    for (let row = 0; row < count; row += 1) {
      const mean = merged.response[cell[row]];
      // A cell of equal responses, which most are, has none.
      if (response[row] !== mean) withinDeviance += (data.weight?.[row] ?? 1) * family.deviance(response[row], mean);
    }
    return inMemoryOrder(design, { ...merged, offset: new Float64Array(0), withinDeviance });
  }
  return inMemoryOrder(design, {
    rows,
    response: Float64Array.from(response),
    weight: data.weight === undefined ? new Float64Array(count).fill(1) : Float64Array.from(data.weight),
    offset: data.offset === undefined ? new Float64Array(0) : Float64Array.from(data.offset),
    withinDeviance: 0,
  });
}

/** Rows in the order in which the widest term sums them, so that the longest loops read memory in order. */
function inMemoryOrder(design: Design, { rows, response, weight, offset, withinDeviance }: FitRows): FitRows {
  const order = rowOrder(design, rows);
  return {
    rows: pickRows(rows, order),
    response: pickNumbers(response, order),
    weight: pickNumbers(weight, order),
    offset: offset.length === 0 ? offset : pickNumbers(offset, order),
    withinDeviance,
  };
}

function earlierStart(design: Design, constraints: Constraints, coefficients: Float64Array): Float64Array {
  if (coefficients.length !== design.width)
    throw new RangeError(
      `model ${design.spec.name} has ${design.width} coefficients, received ${coefficients.length} to start from`,
    );
  return reduceVector(design, constraints, Float64Array.from(coefficients));
}

/** The mean response everywhere. */
function plainStart(constraints: Constraints, family: Family, data: ModelData): Float64Array {
  const reduced = new Float64Array(constraints.reducedWidth);
  let weight = 0;
  let response = 0;
  let offset = 0;
  for (let row = 0; row < data.count; row += 1) {
    const w = data.weight?.[row] ?? 1;
    weight += w;
    response += w * data.response[row];
    offset += w * (data.offset?.[row] ?? 0);
  }
  reduced[0] = weight > 0 ? family.startAt(response / weight) - offset / weight : 0;
  return reduced;
}

function binningRecord(design: Design, rows: DesignRows, coefficients: Float64Array): BinningRecord[] {
  return design.terms.flatMap(({ term, bases, width }, t) =>
    termMargins(term).flatMap((margin, m) => {
      const { farthestMove } = rows.terms[t].margins[m];
      if (farthestMove === 0) return [];
      const inner = bases.slice(m + 1).reduce((product, basis) => product * basis.size, 1);
      const { size, cyclic, segments } = bases[m];
      let steepest = 0;
      for (let i = 0; i < width; i += 1) {
        const k = Math.floor(i / inner) % size;
        if (k === size - 1 && !cyclic) continue;
        const next = k === size - 1 ? i - k * inner : i + inner;
        const at = design.offsets[t];
        steepest = Math.max(steepest, Math.abs(coefficients[at + next] - coefficients[at + i]));
      }
      // The slope of a uniform cubic B-spline is a weighted mean of the steps between its coefficients, over the knot distance.
      const largestError = (steepest * farthestMove * segments) / (margin.hi - margin.lo);
      return [{ term: termLabel(term), covariate: margin.covariate, farthestMove, largestError }];
    }),
  );
}

function notesOf(
  design: Design,
  { unsupported }: Constraints,
  found: Estimate,
  family: Family,
  farthestLinear: number,
): string[] {
  const notes: string[] = [];
  if (found.propped) notes.push('a small ridge was added: some coefficients are not supported by any row');
  if (found.held)
    notes.push('smoothing parameters were held short of their tolerance: see the smoothing gradient of the record');
  if (family.name === 'binomial' && farthestLinear > SEPARATED_LINEAR)
    notes.push('some rows are certain: fitted chances closer to 0 or 1 than 1e-8');
  design.terms.forEach(({ term, width }, t) => {
    if (unsupported[t] > 0)
      notes.push(
        `${termLabel(term)}: ${unsupported[t]} of ${width} coefficients have no row under them; the penalty alone sets them`,
      );
  });
  return notes;
}
