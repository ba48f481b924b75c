import nlopt from 'nlopt-js';
import type { StartQuestion } from '../../src/plans/grid-search.ts';
import { MovingMarks } from '../../src/plans/moving-marks.ts';
import type { SpotLimits } from '../../src/plans/spot-limits.ts';

/** A general optimiser on what the search for starts maximises. It knows no limits but boxes, so it is asked within those. */
export const BOXES: Readonly<Record<number, readonly [number, number, number, number]>> = {
  3: [30, 80, 85, 125],
  4: [0, 65, 120, 160],
  5: [-85, -30, 85, 140],
  6: [-65, 20, 125, 160],
};
export const MOVERS = [3, 4, 5, 6] as const;

export function boxLimits(): SpotLimits {
  return {
    rule: 'open',
    depth: 'usual',
    hold: false,
    seen: (position) => {
      const [left, right, near, far] = BOXES[position]!;
      return Float64Array.of(left, near, right, near, right, far, left, far);
    },
    batterToFirstS: 9,
  };
}

/** What is maximised, the plain way: whole placements through the chain of every ball. */
export function worthOfStarts({ board, worth, others, moveCost }: StartQuestion, starts: Float64Array): number {
  let value = 0;
  new MovingMarks(board).at(starts).forEach((mark, k) => {
    value += worth[k]! * mark;
  });
  for (const p of MOVERS)
    value -= moveCost * Math.hypot(starts[2 * p - 2]! - others[2 * p - 2]!, starts[2 * p - 1]! - others[2 * p - 1]!);
  return value;
}

/** The best value that the library came by; `nlopt.ready` has to be awaited first. */
export function libraryBest(
  question: StartQuestion,
  from: Float64Array,
  algorithm: 'LN_BOBYQA' | 'GN_CRS2_LM',
  evaluations: number,
): number {
  const optimiser = new nlopt.Optimize(nlopt.Algorithm[algorithm], 2 * MOVERS.length);
  let best = Number.NEGATIVE_INFINITY;
  optimiser.setMaxObjective((x: readonly number[]) => {
    const starts = from.slice();
    starts.set(Float64Array.from(x), 4);
    const value = worthOfStarts(question, starts);
    best = Math.max(best, value);
    return value;
  }, 1e-7);
  optimiser.setLowerBounds(MOVERS.flatMap((p) => [BOXES[p]![0], BOXES[p]![2]]));
  optimiser.setUpperBounds(MOVERS.flatMap((p) => [BOXES[p]![1], BOXES[p]![3]]));
  optimiser.setMaxeval(evaluations);
  optimiser.optimize([...from.subarray(4, 12)]);
  nlopt.GC.flush();
  return best;
}
