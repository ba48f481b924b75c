import { type GameCells, RATED_KINDS } from './game-cells.ts';
import type { PoissonWeights } from './poisson-weights.ts';
import { FEWEST_GAMES, RowReplicates } from './row-replicates.ts';
import { standardErrorOf } from './spread.ts';

/** A rate needs this many chances; below, it is empty. */
export const FEWEST_CHANCES = 10;

/** A value and its standard error; both NaN where there is too little to say. */
export interface Rate {
  readonly value: number;
  readonly se: number;
}

/** Outs per 100 chances over plays of grade `full`. */
export interface ChanceRates {
  /** In the order of RATED_KINDS. */
  readonly kinds: readonly Rate[];
  readonly net: Rate;
}

const UNKNOWN: Rate = { value: Number.NaN, se: Number.NaN };

/** Rates of every row: sum of outs over sum of chances, in each replicate anew. Without weights the standard errors are NaN. */
export function estimateChanceRates<Row>(cells: GameCells<Row>, weights: PoissonWeights | null): ChanceRates[] {
  const replicates = weights?.replicates ?? 0;
  const row = new RowReplicates(weights ?? { replicates, weight: new Uint8Array(0) });
  const chances = new Float64Array(replicates);
  const outs = new Float64Array(replicates);
  const net = new Float64Array(replicates);
  return cells.rows.map((_, r) => {
    row.setRow({ game: cells.game, from: cells.start[r], to: cells.start[r + 1] });
    const exposure = row.sumsInto(cells.chances, chances);
    if (exposure < FEWEST_CHANCES || row.gameCount < FEWEST_GAMES)
      return { kinds: RATED_KINDS.map(() => UNKNOWN), net: UNKNOWN };
    net.fill(0);
    let all = 0;
    const kinds = cells.fullOuts.map((column): Rate => {
      const sum = row.sumsInto(column, outs);
      all += sum;
      for (let k = 0; k < replicates; k += 1) net[k] += outs[k];
      return { value: (100 * sum) / exposure, se: ratioError(outs, chances) };
    });
    return { kinds, net: { value: (100 * all) / exposure, se: ratioError(net, chances) } };
  });
}

function ratioError(outs: Float64Array, chances: Float64Array): number {
  if (outs.length === 0) return Number.NaN;
  return standardErrorOf(outs.map((value, k) => (100 * value) / chances[k]));
}
