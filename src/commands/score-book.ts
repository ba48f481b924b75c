import { type AirBalls, selectAirBalls } from '../chances/air/air-balls.ts';
import { type AirModels, airFits, listAirFits } from '../chances/air/air-models.ts';
import type { DrawSettings } from '../chances/even-draws.ts';
import type { FitChoices } from '../chances/fit-chance.ts';
import { type GrounderModels, grounderFits, listGrounderFits } from '../chances/grounder-models.ts';
import { type Grounders, selectGrounders } from '../chances/grounders.ts';
import type { PlayTable } from '../chances/play-table.ts';
import { groundRatingFits, type RatingModels } from '../chances/rating-models.ts';
import { airReachAmongMen } from '../chances/reach-among-men.ts';
import { listTurnFits, type TurnModel, turnFits } from '../chances/turn-model.ts';
import type { ClassLedger } from '../ledger/class-ledger.ts';
import { type HitModel, hitFits, listHitFits } from '../ledger/runs/hit-model.ts';
import { type RunValues, runValues } from '../ledger/runs/run-values.ts';
import { type RunMode, stakes, turnStakes } from '../ledger/runs/stakes.ts';
import { scoreAir } from '../ledger/score-air.ts';
import { scoreGrounders } from '../ledger/score-grounders.ts';
import { addTurns, type TurnBalance } from '../ledger/turn-entries.ts';
import { type Fitting, type TaskFit, together } from '../models/fitting.ts';
import type { Progress } from '../progress.ts';

/** Everything fitted for a book that marks and entries rest on; a class of balls that the book lacks has no models. */
export interface BookModels {
  readonly grounders: GrounderModels | null;
  readonly turn: TurnModel | null;
  readonly air: AirModels | null;
  /** Run table and values of events; mode `flat` does not use them. */
  readonly values: RunValues;
  /** Which hit a ball would be; null in mode `flat`. */
  readonly hits: HitModel | null;
}

/** The same, and what ratings rest on besides. */
export interface FittedModels extends BookModels {
  readonly forRatings: RatingModels;
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

/** All models of a book. */
export function* bookFits(
  { table, grounders, air }: BookPlays,
  mode: RunMode,
  choices: FitChoices = {},
): Fitting<FittedModels> {
  const [ofGrounders, turn, ofAir, hits] = yield* together([
    fitsIf(grounders.count > 0, groundAndRatingFits(grounders, choices)),
    fitsIf(grounders.count > 0, turnFits(grounders, choices)),
    fitsIf(air.count > 0, airAndRatingFits(air, choices)),
    fitsIf(mode !== 'flat', hitFits(table, choices)),
  ]);
  return {
    grounders: ofGrounders?.models ?? null,
    turn,
    air: ofAir?.models ?? null,
    values: runValues(table),
    hits,
    forRatings: {
      finishOnOtherGames: ofGrounders?.finishOnOtherGames ?? [],
      groundReach: ofGrounders?.groundReach ?? [],
      airReach: ofAir?.airReach ?? [],
    },
  };
}

function* groundAndRatingFits(grounders: Grounders, choices: FitChoices) {
  const models = yield* grounderFits(grounders, choices);
  return { models, ...(yield* groundRatingFits(grounders, models, choices)) };
}

function* airAndRatingFits(air: AirBalls, choices: FitChoices) {
  const models = yield* airFits(air, choices);
  return { models, airReach: yield* airReachAmongMen(air, models, choices) };
}

/** Every fit of a book's models but those that only ratings ask. */
export function listBookFits({ grounders, turn, air, hits }: BookModels): TaskFit[] {
  return [
    ...(grounders === null ? [] : listGrounderFits(grounders)),
    ...(turn === null ? [] : listTurnFits(turn)),
    ...(air === null ? [] : listAirFits(air)),
    ...(hits === null ? [] : listHitFits(hits)),
  ];
}

function* fitsIf<Result>(wanted: boolean, fitting: Fitting<Result>): Fitting<Result | null> {
  return wanted ? yield* fitting : null;
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
