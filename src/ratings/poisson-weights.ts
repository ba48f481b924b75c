import { hashText } from '../numeric/hash.ts';
import { createRandom } from '../numeric/random.ts';

/** How often each unit (a game, a man) counts in each replicate of a Poisson bootstrap. */
export interface PoissonWeights {
  readonly replicates: number;
  /** units * replicates; Poisson of mean 1. */
  readonly weight: Uint8Array;
}

/** Distribution function of a Poisson count of mean 1 at 0, 1, 2 and so on. */
const CUMULATIVE = poissonCumulative();

function poissonCumulative(): Float64Array {
  const out = new Float64Array(20);
  let term = Math.exp(-1);
  let sum = 0;
  for (let k = 0; k < out.length; k += 1) {
    sum += term;
    out[k] = sum;
    term /= k + 1;
  }
  return out;
}

/**
 * Weights of a cluster bootstrap (method.md 11): each unit has a stream of its own, tied to its id and the seed, so that its
 * weights do not depend on which other units there are, and the first replicates are the same however many follow.
 */
export function drawPoissonWeights(ids: readonly string[], replicates: number, seed: number): PoissonWeights {
  const weight = new Uint8Array(ids.length * replicates);
  let at = 0;
  for (const id of ids) {
    const random = createRandom(hashText(id, seed));
    for (let r = 0; r < replicates; r += 1) {
      const u = random.next();
      let count = 0;
      while (count < CUMULATIVE.length && u >= CUMULATIVE[count]) count += 1;
      weight[at++] = count;
    }
  }
  return { replicates, weight };
}
