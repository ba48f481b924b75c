import { type AirBalls, selectAirBalls } from '../chances/air/air-balls.ts';
import { type AirModels, fitAirModels } from '../chances/air/air-models.ts';
import type { DrawSettings } from '../chances/even-draws.ts';
import { fitGrounderModels, type GrounderModels } from '../chances/grounder-models.ts';
import { type Grounders, selectGrounders } from '../chances/grounders.ts';
import type { PlayTable } from '../chances/play-table.ts';
import { fitTurn, type TurnModel } from '../chances/turn-model.ts';
import type { ClassLedger } from '../ledger/class-ledger.ts';
import { fitHits, type HitModel } from '../ledger/runs/hit-model.ts';
import { type RunValues, runValues } from '../ledger/runs/run-values.ts';
import { type RunMode, stakes, turnStakes } from '../ledger/runs/stakes.ts';
import { scoreAir } from '../ledger/score-air.ts';
import { scoreGrounders } from '../ledger/score-grounders.ts';
import { addTurns, type TurnBalance } from '../ledger/turn-entries.ts';
import type { Progress } from '../progress.ts';

/** Everything fitted for a book; a class of balls that the book lacks has no models. */
export interface BookModels {
  readonly grounders: GrounderModels | null;
  readonly turn: TurnModel | null;
  readonly air: AirModels | null;
  /** Run table and values of events; mode `flat` does not use them. */
  readonly values: RunValues;
  /** Which hit a ball would be; null in mode `flat`. */
  readonly hits: HitModel | null;
}

/** A book's plays by class. */
export interface BookPlays {
  readonly table: PlayTable;
  readonly grounders: Grounders;
  readonly air: AirBalls;
}

export function selectPlays(table: PlayTable): BookPlays {
  return { table, grounders: selectGrounders(table), air: selectAirBalls(table) };
}

/** Fits all models of a book. Throws FitFailure when one does not arrive. */
export function fitBook({ table, grounders, air }: BookPlays, mode: RunMode, progress: Progress): BookModels {
  return {
    grounders: grounders.count > 0 ? fitGrounderModels(grounders, progress) : null,
    turn: grounders.count > 0 ? fitTurn(grounders) : null,
    air: air.count > 0 ? fitAirModels(air, progress) : null,
    values: runValues(table),
    hits: mode === 'flat' ? null : fitHits(table),
  };
}

export interface ScoredBook {
  /** One a class of balls that the book has. */
  readonly ledgers: readonly ClassLedger[];
  readonly turns: readonly TurnBalance[];
}

/** Scores every grounder and every ball in the air; turns are entries of the grounders. */
export function scoreBook(
  plays: BookPlays,
  models: BookModels,
  mode: RunMode,
  draws: DrawSettings,
  progress: Progress,
): ScoredBook {
  const { table, grounders, air } = plays;
  const { values, hits } = models;
  const stake = hits === null ? undefined : { values, hits };
  const stakeOf = (rows: Int32Array) => stakes(table, rows, mode, stake);
  const ledgers: ClassLedger[] = [];
  let turns: readonly TurnBalance[] = [];
  if (models.grounders !== null && models.turn !== null) {
    const ledger = scoreGrounders(grounders, models.grounders, draws, progress, stakeOf(grounders.row));
    const turnRuns = turnStakes(grounders, mode, stake);
    turns = addTurns(ledger, grounders, models.turn, turnRuns);
    ledgers.push(ledger);
  }
  if (models.air !== null) ledgers.push(scoreAir(air, models.air, stakeOf(air.row), draws, progress));
  return { ledgers, turns };
}
