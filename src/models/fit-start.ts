import { type Penalties, roughnessOf } from './penalties.ts';

/** Where a fit may begin. */
export interface FitStart {
  readonly reduced: Float64Array;
  readonly lambdas: readonly number[];
}

/**
 * The one with the smaller penalised deviance, that of an earlier fit if there is one. Earlier data may have left it where the new ones cannot be:
 * all outs so far put a chance next to 1, where an out that was missed weighs nothing and no step leads away.
 */
export function betterStart(
  devianceAt: (reduced: Float64Array) => number,
  penalties: Penalties,
  plain: FitStart,
  earlier: FitStart | null,
): FitStart {
  if (earlier === null) return plain;
  const costOf = ({ reduced }: FitStart) => devianceAt(reduced) + roughnessOf(penalties, earlier.lambdas, reduced);
  return costOf(earlier) < costOf(plain) ? earlier : plain;
}

const SMOOTHING_START = 1;

/** Smoothing parameters to begin with, at a plain start and at an earlier fit's end. Throws RangeError for a wrong number of them. */
export function startingSmoothing(
  name: string,
  penalties: Penalties,
  { fixedSmoothing, start }: { fixedSmoothing?: readonly number[]; start?: { readonly smoothing: readonly number[] } },
): { readonly plain: readonly number[]; readonly earlier: readonly number[] } {
  const count = penalties.blocks.length;
  for (const given of [fixedSmoothing, start?.smoothing]) {
    if (given !== undefined && given.length !== count)
      throw new RangeError(`model ${name} has ${count} penalties, received ${given.length} smoothing parameters`);
  }
  const plain = fixedSmoothing ?? new Array<number>(count).fill(SMOOTHING_START);
  return { plain, earlier: fixedSmoothing ?? start?.smoothing ?? plain };
}
