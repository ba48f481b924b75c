import type { PlayTable } from '../../chances/play-table.ts';
import type { ClassLedger } from '../../ledger/class-ledger.ts';
import { collectGameCells, type FielderRow, type GameCells, mergeRows } from '../../ratings/game-cells.ts';
import { drawPoissonWeights, type PoissonWeights } from '../../ratings/poisson-weights.ts';
import { estimateTotalErrors, type TotalErrors } from '../../ratings/total-errors.ts';

/** Names a row by what it is of. */
export const seasonKey = ({ season, fielder, position, team }: FielderRow) =>
  `${season} ${fielder} ${position} ${team}`;
export const careerKey = ({ fielder, position }: Pick<FielderRow, 'fielder' | 'position'>) => `${fielder} ${position}`;
export const clubKey = ({ season, team }: Pick<FielderRow, 'season' | 'team'>) => `${season} ${team}`;

export interface BootstrapSettings {
  /** 0: no standard errors. */
  readonly replicates: number;
  readonly seed: number;
}

/** Sums by game of everybody, and what the bootstrap made of them. */
export interface GameSums {
  readonly table: PlayTable;
  readonly men: GameCells<FielderRow>;
  /** null when no replicates were asked for; the errors below are then empty. */
  readonly weights: PoissonWeights | null;
  /** By `seasonKey`, `careerKey` and `clubKey`. */
  readonly errors: Readonly<Record<'season' | 'career' | 'club', ReadonlyMap<string, TotalErrors>>>;
}

/** Sums entries by man and game and bootstraps them with `replicates` replicates (0: none). Ledgers are of the same table. */
export function sumGames(ledgers: readonly ClassLedger[], replicates: number, seed: number): GameSums {
  const { table } = ledgers[0].plays;
  const men = collectGameCells(ledgers);
  const weights = replicates > 0 ? drawPoissonWeights(table.games, replicates, seed) : null;
  const errorsBy = (keyOf: (row: FielderRow) => string) => {
    if (weights === null) return new Map<string, TotalErrors>();
    const merged = mergeRows(men, keyOf, keyOf);
    const errors = estimateTotalErrors(merged, weights);
    return new Map(merged.rows.map((key, r) => [key, errors[r]]));
  };
  return {
    table,
    men,
    weights,
    errors: { season: errorsBy(seasonKey), career: errorsBy(careerKey), club: errorsBy(clubKey) },
  };
}
