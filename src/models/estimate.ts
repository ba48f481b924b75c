import { invertCholesky } from '../numeric/cholesky.ts';
import { chooseSmoothing, type ScaleRule } from './choose-smoothing.ts';
import type { StopReason } from './fit-record.ts';
import { betterStart, type FitStart } from './fit-start.ts';
import type { MonotoneBarrier } from './monotone-barrier.ts';
import { dotProduct, type Penalties, type PriorSums, penaltyTimes, priorSums, roughnessOf } from './penalties.ts';
import type { NormalEquations } from './row-sums.ts';
import { settleHeld } from './settle-held.ts';
import { solveWorking, type WorkingModel } from './working-model.ts';

/** A log likelihood in reduced coefficients, with a point at which it stands. */
export interface Likelihood {
  /** Goes to a point and returns the deviance there. */
  moveTo(reduced: Float64Array): number;
  /** The quadratic that matches slope and expected curvature of the deviance / 2 at the point. */
  normalEquations(): NormalEquations;
  /** Total weight, to set sums in relation. */
  readonly weight: number;
  /** Whether the scale is one; else it is estimated. */
  readonly scaleKnown: boolean;
}

export interface EstimateSettings {
  readonly maxIterations: number;
  readonly tolerance: number;
  readonly smoothingTolerance: number;
  /** Whether smoothing parameters are chosen; else they stay as given. */
  readonly choosing: boolean;
}

/** Where an estimate has come. */
export interface Estimate {
  readonly stopped: StopReason;
  readonly iterations: number;
  readonly reduced: Float64Array;
  readonly lambdas: readonly number[];
  readonly startObjective: number;
  readonly deviance: number;
  readonly objective: number;
  readonly gradientNorm: number;
  readonly smoothingGradient: number;
  readonly propped: boolean;
  /** Whether smoothing parameters were stopped short of their tolerance. */
  readonly held: boolean;
  /** (information + penalty)^-1 at the end, before the scale; and effective degrees of freedom by reduced coefficient. */
  readonly inverse: Float64Array;
  readonly edfs: Float64Array;
}

/** Smoothing steps on one working model: many when it will not change, else one, as the next model makes it stale. */
const STEPS_WHEN_FIXED = 30;
const STEPS_ON_THE_WAY = 1;
/** Relative movement of the objective below which the coefficients follow the smoothing and no more. */
const SETTLED = 1e-6;
/** After this many iterations smoothing parameters that still move may circle round: their steps become ever shorter, from half on. */
const PATIENCE = 30;
/** After this many they are held where they are, if the marginal log likelihood could gain next to nothing more. */
const LAST_PATIENCE = 80;
const SMALL_SLOPE = 0.1;

/**
 * Penalised iteratively reweighted least squares (Wood 2017, 6.1.1), smoothing parameters chosen on each working model as
 * it stands, until neither moves; then steps alone until the gradient is zero. Begins at `plain`, or where an earlier fit ended if that is better. Deterministic.
 */
export function estimate(
  likelihood: Likelihood,
  penalties: Penalties,
  barrier: MonotoneBarrier,
  plain: FitStart,
  earlier: FitStart | null,
  settings: EstimateSettings,
): Estimate {
  const start = betterStart((at) => likelihood.moveTo(at), penalties, plain, earlier);
  let { reduced } = start;
  let lambdas = [...start.lambdas];
  let deviance = likelihood.moveTo(reduced);
  let choosing = settings.choosing && penalties.blocks.length > 0;
  const barrierCost = (at: Float64Array) => (choosing ? 0 : barrier.costAt(at));
  const objectiveAt = (at: Float64Array, own: number) => own + roughnessOf(penalties, lambdas, at) + barrierCost(at);
  const startObjective = objectiveAt(reduced, deviance);
  let smoothingGradient = 0;
  let propped = false;
  let held = false;
  let iterations = 0;
  let stopped: StopReason = 'iteration limit';

  while (iterations < settings.maxIterations) {
    iterations += 1;
    const working: WorkingModel = {
      ...likelihood.normalEquations(),
      barrier: choosing ? null : barrier.matrixOf(barrier.heldAt(reduced), reduced.length),
    };
    const earlier = lambdas;
    let target: Float64Array;
    if (choosing) {
      const choice = chooseSmoothing(
        working,
        penalties,
        (at) => priorsFor(penalties, at),
        lambdas,
        scaleRule(likelihood, working, reduced, deviance),
        {
          steps: likelihood.scaleKnown ? STEPS_ON_THE_WAY : STEPS_WHEN_FIXED,
          tolerance: 0.1 * settings.smoothingTolerance,
        },
      );
      if (choice === null) {
        stopped = 'not positive definite';
        break;
      }
      smoothingGradient = choice.gradientAtStart;
      propped = choice.solution.propped;
      const shortened = iterations > PATIENCE;
      const share = PATIENCE / (2 * iterations);
      lambdas = shortened ? lambdas.map((old, j) => old ** (1 - share) * choice.lambdas[j] ** share) : choice.lambdas;
      target = shortened
        ? (solveWorking(working, penalties, lambdas)?.reduced ?? choice.solution.reduced)
        : choice.solution.reduced;
    } else {
      const solution = solveWorking(working, penalties, lambdas);
      if (solution === null) {
        stopped = 'not positive definite';
        break;
      }
      propped = solution.propped;
      target = barrier.needed ? settleHeld(working, penalties, lambdas, barrier, solution.reduced) : solution.reduced;
    }
    const before = objectiveAt(reduced, deviance);
    const moved = stepToward(target, reduced, before, (at) => {
      deviance = likelihood.moveTo(at);
      return objectiveAt(at, deviance);
    });
    reduced = moved.reduced;
    if (!Number.isFinite(moved.objective)) {
      stopped = 'not finite';
      break;
    }
    const size = Math.abs(moved.objective) + 0.1;
    const wasChoosing = choosing;
    if (choosing) {
      const isStill = Math.abs(before - moved.objective) < SETTLED * size;
      if (smoothingGradient < settings.smoothingTolerance && isStill) choosing = false;
      // Where no step raises the marginal likelihood any more, rounding hides what its slope still promises.
      const isStuck = isStill && lambdas.every((lambda, j) => lambda === earlier[j]);
      if (choosing && (isStuck || (iterations >= LAST_PATIENCE && smoothingGradient < SMALL_SLOPE))) {
        choosing = false;
        held = true;
      }
    }
    // Monotone terms are held from here on: their smoothing is chosen as if they were free (docs/engine.md).
    if (wasChoosing && !choosing && barrier.needed) continue;
    if (!choosing && before - moved.objective <= settings.tolerance * size) {
      // A step that lowers nothing at all has met the rounding of a very stiff penalty: that is arrival, too.
      stopped = 'converged';
      break;
    }
  }
  const working: WorkingModel = {
    ...likelihood.normalEquations(),
    barrier: barrier.matrixOf(barrier.heldAt(reduced), reduced.length),
  };
  return {
    stopped,
    iterations,
    reduced,
    lambdas,
    startObjective,
    deviance,
    objective: objectiveAt(reduced, deviance),
    gradientNorm: penalisedScore(working, penalties, lambdas, reduced) / Math.max(likelihood.weight, 1),
    smoothingGradient,
    propped,
    held,
    ...inverseAndEdfs(working, penalties, lambdas),
  };
}

/** Goes to the target, or part of the way there when the objective would rise. */
function stepToward(
  target: Float64Array,
  from: Float64Array,
  before: number,
  objectiveAt: (reduced: Float64Array) => number,
): { reduced: Float64Array; objective: number } {
  for (let share = 1; ; share /= 2) {
    const reduced = share === 1 ? target : from.map((value, k) => value + share * (target[k] - value));
    const objective = objectiveAt(reduced);
    if (objective <= before + 1e-9 * (Math.abs(before) + 1) || share < 1e-6) return { reduced, objective };
  }
}

function priorsFor(penalties: Penalties, lambdas: readonly number[]): PriorSums[] {
  return penalties.groups.map(({ first, count, spectra }) =>
    priorSums(spectra, lambdas.slice(first, first + count), penalties.ridge),
  );
}

/** A gaussian working model is the likelihood itself, so z'Wz follows from the deviance anywhere. */
function scaleRule(
  likelihood: Likelihood,
  working: NormalEquations,
  reduced: Float64Array,
  deviance: number,
): ScaleRule {
  if (likelihood.scaleKnown) return null;
  const curved = dotProduct(reduced, squareTimes(working.information, reduced));
  return {
    responseSquares: deviance + 2 * dotProduct(working.right, reduced) - curved,
    weight: likelihood.weight,
  };
}

function squareTimes(matrix: Float64Array, vector: Float64Array): Float64Array {
  const n = vector.length;
  const out = new Float64Array(n);
  for (let i = 0; i < n; i += 1) {
    let sum = 0;
    for (let k = 0; k < n; k += 1) sum += matrix[i * n + k] * vector[k];
    out[i] = sum;
  }
  return out;
}

/** Largest entry of b - A beta - S beta - barrier: the slope of the penalised log likelihood. */
function penalisedScore(
  working: WorkingModel,
  penalties: Penalties,
  lambdas: readonly number[],
  reduced: Float64Array,
): number {
  const score = Float64Array.from(working.right);
  const take = (vector: Float64Array, factor: number) => {
    for (let i = 0; i < score.length; i += 1) score[i] -= factor * vector[i];
  };
  take(squareTimes(working.information, reduced), 1);
  if (working.barrier !== null) take(squareTimes(working.barrier, reduced), 1);
  const held = Float64Array.from(reduced);
  for (const i of penalties.intercepts) held[i] = 0;
  take(held, penalties.ridge);
  penalties.blocks.forEach((block, j) => {
    take(penaltyTimes(block, reduced), lambdas[j]);
  });
  return score.reduce((largest, entry) => Math.max(largest, Math.abs(entry)), 0);
}

function inverseAndEdfs(
  working: WorkingModel,
  penalties: Penalties,
  lambdas: readonly number[],
): { inverse: Float64Array; edfs: Float64Array } {
  const n = working.right.length;
  const edfs = new Float64Array(n);
  const solution = solveWorking(working, penalties, lambdas);
  if (solution === null) return { inverse: new Float64Array(n * n), edfs };
  const inverse = invertCholesky(solution.factor, n);
  for (let i = 0; i < n; i += 1)
    for (let k = 0; k < n; k += 1) edfs[i] += inverse[i * n + k] * working.information[k * n + i];
  return { inverse, edfs };
}
