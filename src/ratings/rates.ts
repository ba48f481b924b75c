import { type GameCells, RATED_KINDS } from './game-cells.ts';
import type { PoissonWeights } from './poisson-weights.ts';
import { FEWEST_GAMES, RowReplicates } from './row-replicates.ts';
import { standardErrorOf } from './spread.ts';

/** A rate needs this many chances; below, it is empty. */
const FEWEST_CHANCES = 10;
/** Rates are per so many chances. */
export const PER = 100;

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

/** Rates of every row: sum of outs over sum of chances. Without weights the standard errors are NaN. */
export function estimateChanceRates<Row>(cells: GameCells<Row>, weights: PoissonWeights | null): ChanceRates[] {
  const replicates = weights?.replicates ?? 0;
  const row = new RowReplicates(weights ?? { replicates, weight: new Uint8Array(0) });
  const rates = new Float64Array(replicates);
  const net = new Float64Array(replicates);
  const errorOf = (replicated: Float64Array) => (weights === null ? Number.NaN : standardErrorOf(replicated));
  return cells.rows.map((_, r) => {
    row.setRow({ game: cells.game, from: cells.start[r], to: cells.start[r + 1] });
    if (!setChances(row, cells.chances)) return { kinds: RATED_KINDS.map(() => UNKNOWN), net: UNKNOWN };
    net.fill(0);
    let all = 0;
    const kinds = cells.fullOuts.map((column): Rate => {
      const value = PER * row.ratiosInto(column, rates);
      all += value;
      for (let k = 0; k < replicates; k += 1) net[k] += rates[k];
      return { value, se: PER * errorOf(rates) };
    });
    return { kinds, net: { value: all, se: PER * errorOf(net) } };
  });
}

/** Makes a row's ratios be over chances; false when it has too few of them, or of games, for a rate. */
export function setChances(row: RowReplicates, chances: Float64Array): boolean {
  return row.setExposure(chances) >= FEWEST_CHANCES && row.gameCount >= FEWEST_GAMES;
}
