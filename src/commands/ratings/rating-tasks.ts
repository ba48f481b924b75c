import type { FielderRow } from '../../ledger/fielder-rows.ts';
import { type GameCells, mergeRows } from '../../ratings/game-cells.ts';
import { findHalfSignal, type HalfSignal } from '../../ratings/half-signal.ts';
import { listManSeasons } from '../../ratings/man-seasons.ts';
import type { PoissonWeights } from '../../ratings/poisson-weights.ts';
import { type RatingEvidence, rateSeason, type SeasonRatings } from '../../ratings/rate-seasons.ts';
import { type ChanceRates, estimateChanceRates } from '../../ratings/rates.ts';
import { measureReliability, type Reliability } from '../../ratings/reliability.ts';
import { estimateRoom, type RoomToGain } from '../../ratings/room-to-gain.ts';
import { estimateTotalErrors, type TotalErrors } from '../../ratings/total-errors.ts';
import { ERROR_KEYS, type ErrorRows } from '../results/row-keys.ts';

/** Sums by game and how often each game counts in each replicate; null when no replicates were asked for. */
interface Replicated {
  readonly men: GameCells<FielderRow>;
  readonly weights: PoissonWeights | null;
}

/**
 * The parts of ratings and standard errors that do not wait for each other, by name. What they are asked and what they answer is plain
 * data, which threads can hand to each other, and nothing but the question decides the answer.
 */
export const RATING_TASKS = {
  /** Ratings as of the end of a season. */
  season({ evidence, season }: { readonly evidence: RatingEvidence; readonly season: number }): SeasonRatings {
    return rateSeason(evidence, season);
  },
  /** Standard errors of sums, by the key of the rows that they are of; none without replicates. */
  errors({ men, weights, of }: Replicated & { readonly of: ErrorRows }): Map<string, TotalErrors> {
    if (weights === null) return new Map();
    const merged = mergeRows(men, ERROR_KEYS[of], ERROR_KEYS[of]);
    const errors = estimateTotalErrors(merged, weights);
    return new Map(merged.rows.map((key, r) => [key, errors[r]!]));
  },
  /** Rates a chance, in the order of the rows of `men`. */
  rates({ men, weights }: Replicated): ChanceRates[] {
    return estimateChanceRates(men, weights);
  },
  room({ men, weights }: Replicated): RoomToGain[] {
    return estimateRoom(men, weights);
  },
  /** How well rates repeat themselves. */
  repeats({ men, dates }: { readonly men: GameCells<FielderRow>; readonly dates: GameDates }): Repeats {
    const seasons = listManSeasons(men, dates);
    return { reliability: measureReliability(seasons), halfSignal: findHalfSignal(seasons) };
  },
};

/** Game and date of every play. */
export interface GameDates {
  readonly game: Int32Array;
  readonly date: Int32Array;
}

export interface Repeats {
  readonly reliability: readonly Reliability[];
  readonly halfSignal: readonly HalfSignal[];
}

export type RatingTask = keyof typeof RATING_TASKS;
export type TaskQuestion<Task extends RatingTask> = Parameters<(typeof RATING_TASKS)[Task]>[0];
export type TaskAnswer<Task extends RatingTask> = ReturnType<(typeof RATING_TASKS)[Task]>;

/** Does one of them. */
export function doRatingTask<Task extends RatingTask>(task: Task, question: TaskQuestion<Task>): TaskAnswer<Task> {
  const work = RATING_TASKS[task] as (question: TaskQuestion<Task>) => TaskAnswer<Task>;
  return work(question);
}
