import { type Constraints, reduceFunctional } from './constraints.ts';
import type { Design } from './design.ts';
import { termMargins } from './terms.ts';

/** A step between neighbouring coefficients that may not go the wrong way, in reduced coefficients: step'beta >= 0. */
interface HeldStep {
  readonly start: number;
  readonly step: Float64Array;
}

/**
 * Holds monotone terms: a steep quadratic on every step of the coefficients that goes the wrong way (asymmetric penalty of
 * Bollaerts, Eilers & Van Mechelen, Statistics in Medicine 25(8), 2006). Coefficients of a B-spline that never fall make a
 * curve that never falls.
 */
export class MonotoneBarrier {
  private readonly steps: readonly HeldStep[];
  private readonly steepness: number;

  constructor(design: Design, constraints: Constraints, steepness: number) {
    this.steepness = steepness;
    this.steps = design.terms.flatMap((term, t) =>
      heldPairs(design, t).map(([low, high]) => ({
        start: constraints.reducedOffsets[t],
        step: reduceFunctional(term, constraints.reflections[t], [
          [high, 1],
          [low, -1],
        ]),
      })),
    );
  }

  get needed(): boolean {
    return this.steps.length > 0;
  }

  private wrongBy({ start, step }: HeldStep, reduced: Float64Array): number {
    let sum = 0;
    for (let i = 0; i < step.length; i += 1) sum += step[i] * reduced[start + i];
    return Math.min(sum, 0);
  }

  costAt(reduced: Float64Array): number {
    return this.steps.reduce((sum, held) => sum + this.steepness * this.wrongBy(held, reduced) ** 2, 0);
  }

  /** Numbers of the steps that go the wrong way at a point, and are held there. */
  heldAt(reduced: Float64Array): number[] {
    return this.steps.flatMap((held, k) => (this.wrongBy(held, reduced) < 0 ? [k] : []));
  }

  /** Second derivative / 2 while these steps are held, n x n; null for none. */
  matrixOf(held: readonly number[], n: number): Float64Array | null {
    if (held.length === 0) return null;
    const matrix = new Float64Array(n * n);
    for (const k of held) {
      const { start, step } = this.steps[k];
      for (let i = 0; i < step.length; i += 1) {
        const factor = this.steepness * step[i];
        if (factor === 0) continue;
        const row = (start + i) * n + start;
        for (let k = 0; k < step.length; k += 1) matrix[row + k] += factor * step[k];
      }
    }
    return matrix;
  }
}

/** Pairs of a term's coefficients of which the second may not be below the first. */
function heldPairs(design: Design, t: number): [number, number][] {
  const { term, bases, width } = design.terms[t];
  return termMargins(term).flatMap(({ monotone }, m) => {
    if (monotone === undefined) return [];
    const inner = bases.slice(m + 1).reduce((product, basis) => product * basis.size, 1);
    const pairs: [number, number][] = [];
    for (let i = 0; i < width; i += 1) {
      if (Math.floor(i / inner) % bases[m].size === bases[m].size - 1) continue;
      pairs.push(monotone === 'increasing' ? [i, i + inner] : [i + inner, i]);
    }
    return pairs;
  });
}

/** Takes out what the barrier left of wrong steps (some millionths): a running extreme along the margin. */
export function straightenMonotone(design: Design, full: Float64Array): Float64Array {
  const out = Float64Array.from(full);
  design.terms.forEach((_, t) => {
    const at = design.offsets[t];
    const pairs = heldPairs(design, t);
    for (let pass = 0; pass < 2; pass += 1) {
      for (const [low, high] of pass === 0 ? pairs : pairs.reverse())
        if (out[at + high] < out[at + low]) out[at + high] = out[at + low];
    }
  });
  return out;
}
