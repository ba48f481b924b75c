import type { PlayTable } from '../../chances/play-table.ts';
import type { ClassLedger } from '../../ledger/class-ledger.ts';
import type { FielderRow } from '../../ledger/fielder-rows.ts';
import { collectGameCells, type GameCells } from '../../ratings/game-cells.ts';
import { drawPoissonWeights } from '../../ratings/poisson-weights.ts';
import type { ChanceRates } from '../../ratings/rates.ts';
import type { RoomToGain } from '../../ratings/room-to-gain.ts';
import type { TotalErrors } from '../../ratings/total-errors.ts';
import type { RatingHands } from '../ratings/rating-hands.ts';
import type { Repeats } from '../ratings/rating-tasks.ts';
import { type ErrorRows, seasonKey } from './row-keys.ts';

export interface BootstrapSettings {
  /** 0: no standard errors. */
  readonly replicates: number;
  readonly seed: number;
}

/** Sums by game of everybody, and what the bootstrap made of them. */
export interface GameSums extends Repeats {
  readonly table: PlayTable;
  readonly men: GameCells<FielderRow>;
  /** Standard errors by keys of ERROR_KEYS; empty when no replicates were asked for. */
  readonly errors: Readonly<Record<ErrorRows, ReadonlyMap<string, TotalErrors>>>;
  /** By `seasonKey`. */
  readonly rates: ReadonlyMap<string, ChanceRates>;
  readonly room: readonly RoomToGain[];
}

/** Sums entries by man and game and bootstraps them (method.md 11). Ledgers are of the same table. */
export async function sumGames(
  ledgers: readonly ClassLedger[],
  { replicates, seed }: BootstrapSettings,
  hands: RatingHands,
): Promise<GameSums> {
  const { table } = ledgers[0]!.plays;
  const men = collectGameCells(ledgers);
  const weights = replicates > 0 ? drawPoissonWeights(table.games, replicates, seed) : null;
  const errorsOf = (of: ErrorRows) => hands.do('errors', { men, weights, of });
  const [season, career, club, rates, room, repeats] = await Promise.all([
    errorsOf('season'),
    errorsOf('career'),
    errorsOf('club'),
    hands.do('rates', { men, weights }),
    hands.do('room', { men, weights }),
    hands.do('repeats', { men, dates: { game: table.game, date: table.date } }),
  ]);
  return {
    table,
    men,
    errors: { season, career, club },
    rates: new Map(rates.map((own, r) => [seasonKey(men.rows[r]!), own])),
    room,
    ...repeats,
  };
}
