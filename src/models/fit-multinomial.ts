import { centringConstraints, expandVector, reduceVector } from './constraints.ts';
import { type Covariates, compileDesign, type Design } from './design.ts';
import { estimate } from './estimate.ts';
import { FitFailure, type FitRecord } from './fit-record.ts';
import { startingSmoothing } from './fit-start.ts';
import { linearPredictorInto } from './linear-predictor.ts';
import { MonotoneBarrier } from './monotone-barrier.ts';
import { MultinomialLogit, shareInPlace } from './multinomial-logit.ts';
import { penaltiesOf } from './penalties.ts';
import { termRows } from './term-rows.ts';
import { type Term, termMargins } from './terms.ts';

/** A multinomial logit before it has seen data: every category but the first has a linear predictor with these terms. */
export interface MultinomialSpec {
  readonly name: string;
  readonly terms: readonly Term[];
  /** Number of categories, 2 or more. */
  readonly categories: number;
}

export interface MultinomialData {
  readonly count: number;
  readonly covariates: Covariates;
  /** Category of each row: 0, 1, ..., categories - 1. */
  readonly category: ArrayLike<number>;
  /** Cases behind each row; 1 when left out. */
  readonly weight?: ArrayLike<number>;
}

export interface MultinomialSettings {
  /** As in FitSettings of fitModel. */
  readonly maxIterations?: number;
  readonly tolerance?: number;
  readonly smoothingTolerance?: number;
  readonly ridge?: number;
  /** Bins a knot interval; 0 keeps every value. Default 0 up to 2,000 rows, else 20. */
  readonly binsPerSegment?: number;
  /** Fixed smoothing parameters: category by category, one a penalty in term order. */
  readonly fixedSmoothing?: readonly number[];
  /** Where to begin: a fit of the same specification to like data. The result is the same, sooner. */
  readonly start?: Pick<FittedMultinomial, 'coefficients' | 'smoothing'>;
}

export interface FittedMultinomial {
  readonly spec: MultinomialSpec;
  readonly design: Design;
  /** Coefficients of categories 1, 2, ...: their log odds against category 0. */
  readonly coefficients: readonly Float64Array[];
  /** Category by category, one a penalty in term order. */
  readonly smoothing: readonly number[];
  readonly edf: number;
  readonly record: FitRecord;
}

const MOST_EXACT_ROWS = 2000;
const DEFAULT_BINS = 20;

/**
 * Fits a multinomial logit by the same means as fitModel. Throws RangeError for data that cannot be used, FitFailure with its
 * record when it does not arrive.
 */
export function fitMultinomial(
  spec: MultinomialSpec,
  data: MultinomialData,
  settings: MultinomialSettings = {},
): FittedMultinomial {
  const { name, terms, categories } = spec;
  // The family only serves messages of the design; the likelihood is the multinomial's own.
  const design = compileDesign({ name, terms, family: 'binomial' });
  checkMultinomial(spec, data);
  const { count, covariates } = data;
  const bins = settings.binsPerSegment ?? (count > MOST_EXACT_ROWS ? DEFAULT_BINS : 0);
  const rows = termRows(design, covariates, count, bins);
  const weight = data.weight === undefined ? new Float64Array(count).fill(1) : Float64Array.from(data.weight);
  const constraints = centringConstraints(design, rows, weight);
  const penalties = penaltiesOf(design, constraints, settings.ridge ?? 0, categories - 1);
  const likelihood = new MultinomialLogit(
    design,
    constraints,
    rows,
    Int32Array.from(data.category),
    categories,
    weight,
  );
  const { start } = settings;
  const lambdas = startingSmoothing(name, penalties, settings);
  const tolerance = settings.tolerance ?? 1e-10;
  const width = constraints.reducedWidth * (categories - 1);
  const reduced = new Float64Array(width);
  start?.coefficients.forEach((own, k) => {
    if (own.length !== design.width || start.coefficients.length !== categories - 1)
      throw new RangeError(
        `model ${name} has ${categories - 1} times ${design.width} coefficients, received ${start.coefficients.length} times ${own.length} to start from`,
      );
    reduced.set(reduceVector(design, constraints, Float64Array.from(own)), k * constraints.reducedWidth);
  });
  const found = estimate(
    likelihood,
    penalties,
    new MonotoneBarrier(design, constraints, 1),
    { reduced: new Float64Array(width), lambdas: lambdas.plain },
    start === undefined ? null : { reduced, lambdas: lambdas.earlier },
    {
      maxIterations: settings.maxIterations ?? 300,
      tolerance,
      smoothingTolerance: settings.smoothingTolerance ?? 1e-2,
      choosing: settings.fixedSmoothing === undefined,
    },
  );
  const record: FitRecord = {
    rows: count,
    weight: likelihood.weight,
    iterations: found.iterations,
    startObjective: found.startObjective,
    endObjective: found.objective,
    deviance: found.deviance,
    gradientNorm: found.gradientNorm,
    smoothingGradient: found.smoothingGradient,
    tolerance,
    stopped: found.stopped,
    notes: found.propped ? ['a small ridge was added: some coefficients are not supported by any row'] : [],
  };
  if (found.stopped !== 'converged') throw new FitFailure(name, record);
  return {
    spec,
    design,
    coefficients: Array.from({ length: categories - 1 }, (_, k) => {
      const own = constraints.reducedWidth;
      return expandVector(design, constraints, found.reduced.subarray(k * own, (k + 1) * own));
    }),
    smoothing: [...found.lambdas],
    edf: found.edfs.reduce((sum, value) => sum + value, 0),
    record,
  };
}

function checkMultinomial({ name, terms, categories }: MultinomialSpec, { count, category, weight }: MultinomialData) {
  if (!Number.isInteger(categories) || categories < 2)
    throw new RangeError(`model ${name} needs 2 or more categories, received ${categories}`);
  if (terms.some((term) => termMargins(term).some(({ monotone }) => monotone !== undefined)))
    throw new RangeError(
      `model ${name}: a multinomial logit has no monotone terms, as its chances need not follow them`,
    );
  for (const [what, column] of Object.entries({ category, weight }))
    if (column !== undefined && column.length !== count)
      throw new RangeError(`model ${name} needs ${count} values of ${what}, received ${column.length}`);
  for (let row = 0; row < count; row += 1) {
    const own = category[row];
    if (!Number.isInteger(own) || own < 0 || own >= categories)
      throw new RangeError(`categories of model ${name} are 0 to ${categories - 1}, received ${own} in row ${row}`);
    const w = weight?.[row] ?? 1;
    if (!(w >= 0 && w < Number.POSITIVE_INFINITY))
      throw new RangeError(`weights of model ${name} are numbers of 0 or more, received ${w} in row ${row}`);
  }
}

/** Chance of each category, category by category, each of length `count`; they sum to one. Throws RangeError when a covariate is missing. */
export function predictCategories(model: FittedMultinomial, covariates: Covariates, count: number): Float64Array[] {
  const others = model.coefficients.map((coefficients) => {
    const out = new Float64Array(count);
    linearPredictorInto(model.design, coefficients, covariates, count, out);
    return out;
  });
  const first = new Float64Array(count);
  for (let row = 0; row < count; row += 1) first[row] = Math.exp(shareInPlace(others, row, 0));
  return [first, ...others];
}
