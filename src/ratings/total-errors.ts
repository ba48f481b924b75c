import { ENTRY_KINDS } from '../ledger/entry-kinds.ts';
import type { GameCells } from './game-cells.ts';
import type { PoissonWeights } from './poisson-weights.ts';
import { RowReplicates } from './row-replicates.ts';
import { standardErrorOf } from './spread.ts';

/** Standard errors of one row's sums in runs; NaN where there are too few games to say. */
export interface TotalErrors {
  /** By kind, in the order of ENTRY_KINDS. */
  readonly runs: Float64Array;
  readonly net: number;
}

/** Standard errors of every row's sums, by kind and of the net (method.md 11). */
export function estimateTotalErrors<Row>(cells: GameCells<Row>, weights: PoissonWeights): TotalErrors[] {
  const row = new RowReplicates(weights);
  const totals = new Float64Array(weights.replicates);
  const net = new Float64Array(weights.replicates);
  return cells.rows.map((_, r) => {
    row.setRow({ game: cells.game, from: cells.start[r], to: cells.start[r + 1] });
    net.fill(0);
    const runs = new Float64Array(ENTRY_KINDS.length);
    for (let kind = 0; kind < runs.length; kind += 1) {
      row.totalsInto(cells.runs[kind], totals);
      runs[kind] = standardErrorOf(totals);
      for (let k = 0; k < net.length; k += 1) net[k] += totals[k];
    }
    return { runs, net: standardErrorOf(net) };
  });
}
