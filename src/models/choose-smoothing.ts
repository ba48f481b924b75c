import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { invertCholesky } from '../numeric/cholesky.ts';
import type { Penalties, PriorSums } from './penalties.ts';
import { penaltyTraces } from './penalty-traces.ts';
import { solveWorking, type WorkingModel, type WorkingSolution } from './working-model.ts';

/** How the scale enters: known to be one, or profiled out of the marginal likelihood of a gaussian model. */
export type ScaleRule = null | {
  /** z'Wz, and the total weight. */
  readonly responseSquares: number;
  readonly weight: number;
};

export interface SmoothingChoice {
  readonly lambdas: number[];
  readonly solution: WorkingSolution;
  /** Largest derivative of the marginal log likelihood in a log smoothing parameter, where the search began. */
  readonly gradientAtStart: number;
}

/** Beyond the upper end a term is straight to all digits that rounding leaves. */
const SMOOTHING_RANGE = [1e-7, 1e8] as const;
/** One step may not multiply a smoothing parameter by more than e to this. */
const LONGEST_LOG_STEP = 5;
const MOST_HALVINGS = 12;
/** Curvatures below this share of the largest are lifted to it, so that flat directions are not run along. */
const FLAT_SHARE = 1e-9;
/** Sums of squares are right to this share of themselves; and one that can still be divided by, twice. */
const ROUNDING = 1e-14;
const LEAST_SQUARES = 1e-100;
/** A parameter with a slope below this share of the tolerance stays where it is: it would only follow rounding. */
const DONE_SHARE = 0.5;

/**
 * Newton steps on the logarithms of the smoothing parameters, toward the maximum of the restricted marginal likelihood of
 * the working model (Wood, JRSS B 73(1), 2011, with the working weights held; its zero is the fixed point of the
 * generalised Fellner-Schall update, Wood & Fasiolo, Biometrics 73, 2017). Each step must lower the criterion or is
 * halved. Returns null when the working model cannot be solved.
 */
export function chooseSmoothing(
  working: WorkingModel,
  penalties: Penalties,
  priorsAt: (lambdas: readonly number[]) => readonly PriorSums[],
  start: readonly number[],
  scale: ScaleRule,
  settings: { readonly steps: number; readonly tolerance: number },
): SmoothingChoice | null {
  let lambdas = [...start];
  let solution = solveWorking(working, penalties, lambdas);
  if (solution === null) return null;
  let priors = priorsAt(lambdas);
  let criterion = criterionOf(solution, priors, scale);
  let gradientAtStart = Number.NaN;
  for (let step = 0; step < settings.steps; step += 1) {
    const slope = derivatives(penalties, lambdas, solution, priors, scale);
    const steepest = steepestFree(slope.gradient, lambdas);
    if (step === 0) gradientAtStart = steepest;
    if (steepest < settings.tolerance) break;
    const direction = newtonDirection(slope, lambdas, DONE_SHARE * settings.tolerance);
    let share = 1;
    let moved = false;
    for (let halving = 0; halving < MOST_HALVINGS && !moved; halving += 1, share /= 2) {
      const trial = lambdas.map((lambda, j) => bounded(lambda * Math.exp(share * direction[j])));
      const trialSolution = solveWorking(working, penalties, trial);
      if (trialSolution === null) continue;
      const trialPriors = priorsAt(trial);
      const trialCriterion = criterionOf(trialSolution, trialPriors, scale);
      if (!(trialCriterion <= criterion + 1e-12 * Math.abs(criterion))) continue;
      lambdas = trial;
      solution = trialSolution;
      priors = trialPriors;
      criterion = trialCriterion;
      moved = true;
    }
    if (!moved) break;
  }
  return { lambdas, solution, gradientAtStart };
}

function bounded(lambda: number): number {
  return Math.min(Math.max(lambda, SMOOTHING_RANGE[0]), SMOOTHING_RANGE[1]);
}

/** Degrees of freedom that the restricted likelihood leaves the residuals. */
function residualFreedom(weight: number, n: number, priors: readonly PriorSums[]): number {
  return Math.max(weight - n + priors.reduce((sum, prior) => sum + prior.rank, 0), 1);
}

/** Penalised squares that the fit leaves: of data that it meets exactly, what rounding would leave. */
function leftOver({ responseSquares }: NonNullable<ScaleRule>, { drop }: WorkingSolution): number {
  return Math.max(responseSquares - drop, ROUNDING * responseSquares, LEAST_SQUARES);
}

/** Minus the log of the restricted marginal likelihood, constants aside. */
function criterionOf(solution: WorkingSolution, priors: readonly PriorSums[], scale: ScaleRule): number {
  const determinants = priors.reduce((sum, prior) => sum - prior.logDeterminant, solution.logDeterminant);
  if (scale === null) return 0.5 * (determinants - solution.drop);
  const freedom = residualFreedom(scale.weight, solution.reduced.length, priors);
  const penalised = leftOver(scale, solution);
  return 0.5 * (determinants + freedom * Math.log(penalised));
}

interface Slope {
  readonly gradient: number[];
  /** Row by row. */
  readonly curvature: number[];
}

function derivatives(
  penalties: Penalties,
  lambdas: readonly number[],
  solution: WorkingSolution,
  priors: readonly PriorSums[],
  scale: ScaleRule,
): Slope {
  const n = solution.reduced.length;
  const { blocks, groups } = penalties;
  const count = blocks.length;
  const traces = penaltyTraces(penalties, invertCholesky(solution.factor, n), solution.reduced);
  const penalised = scale === null ? 1 : leftOver(scale, solution);
  const freedom = scale === null ? 1 : residualFreedom(scale.weight, n, priors);
  const variance = penalised / freedom;
  const rough = traces.rough.map((each) => each / variance);
  const prior = priors.flatMap((sums) => sums.traces);
  const gradient = blocks.map((_, j) => 0.5 * lambdas[j] * (rough[j] - prior[j] + traces.used[j]));
  const curvature = new Array<number>(count * count).fill(0);
  for (let j = 0; j < count; j += 1) {
    for (let k = 0; k <= j; k += 1) {
      let entry = (-2 * traces.pulled[j * count + k]) / variance - traces.cross[j * count + k];
      if (scale !== null) entry -= (rough[j] * rough[k]) / freedom;
      const value = 0.5 * lambdas[j] * lambdas[k] * entry + (j === k ? gradient[j] : 0);
      curvature[j * count + k] = value;
      curvature[k * count + j] = value;
    }
  }
  groups.forEach(({ first, count: own }, g) => {
    for (let a = 0; a < own; a += 1)
      for (let b = 0; b < own; b += 1)
        curvature[(first + a) * count + first + b] +=
          0.5 * lambdas[first + a] * lambdas[first + b] * priors[g].crossTraces[a * own + b];
  });
  return { gradient, curvature };
}

/** A parameter at the end of its range whose slope points outward is done. */
function isFree(gradient: number, lambda: number): boolean {
  return !(gradient > 0 && lambda <= SMOOTHING_RANGE[0]) && !(gradient < 0 && lambda >= SMOOTHING_RANGE[1]);
}

function steepestFree(gradient: readonly number[], lambdas: readonly number[]): number {
  return gradient.reduce((most, g, j) => (isFree(g, lambdas[j]) ? Math.max(most, Math.abs(g)) : most), 0);
}

function newtonDirection({ gradient, curvature }: Slope, lambdas: readonly number[], done: number): number[] {
  const count = gradient.length;
  const free = gradient.flatMap((g, j) => (Math.abs(g) > done && isFree(g, lambdas[j]) ? [j] : []));
  const direction = new Array<number>(count).fill(0);
  if (free.length === 0) return direction;
  const matrix = new Matrix(free.map((j) => free.map((k) => curvature[j * count + k])));
  const { realEigenvalues: values, eigenvectorMatrix: vectors } = new EigenvalueDecomposition(matrix, {
    assumeSymmetric: true,
  });
  const largest = Math.max(...values.map(Math.abs));
  values.forEach((value, e) => {
    const curve = Math.max(Math.abs(value), FLAT_SHARE * largest, Number.MIN_VALUE);
    const along = free.reduce((sum, j, i) => sum + gradient[j] * vectors.get(i, e), 0) / curve;
    free.forEach((j, i) => {
      direction[j] -= along * vectors.get(i, e);
    });
  });
  const longest = Math.max(...direction.map(Math.abs));
  return longest > LONGEST_LOG_STEP ? direction.map((d) => (d * LONGEST_LOG_STEP) / longest) : direction;
}
