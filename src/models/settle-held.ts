import type { MonotoneBarrier } from './monotone-barrier.ts';
import type { Penalties } from './penalties.ts';
import type { NormalEquations } from './row-sums.ts';
import { solveWorking } from './working-model.ts';

/** Rounds after which steps that are held and let go in turn are left as they are; some ten are usual. */
const MOST_ROUNDS = 50;

/**
 * The minimum of the working model with the barrier as it stands everywhere, not only where the fit has come: solves, holds the
 * steps that went the wrong way, lets those go that no longer lean on the barrier, and again until they are the same ones
 * (Bollaerts, Eilers & Van Mechelen 2006, section 2). Without it a step toward the minimum would meet steps that are not yet
 * held, and be cut short at the first of them.
 *
 * @param first the minimum with the steps held at which the fit stands
 */
export function settleHeld(
  working: NormalEquations,
  penalties: Penalties,
  lambdas: readonly number[],
  barrier: MonotoneBarrier,
  first: Float64Array,
): Float64Array {
  let target = first;
  let held = barrier.heldAt(first);
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const solution = solveWorking({ ...working, barrier: barrier.matrixOf(held, target.length) }, penalties, lambdas);
    if (solution === null) return target;
    target = solution.reduced;
    const next = barrier.heldAt(target);
    if (next.join() === held.join()) return target;
    held = next;
  }
  return target;
}
