import type { FittedModel } from '../models/fitted-model.ts';
import { type Fitting, together } from '../models/fitting.ts';
import type { AirBalls } from './air/air-balls.ts';
import { AirChances } from './air/air-chances.ts';
import type { AirModels } from './air/air-models.ts';
import { type FinishOnOtherGames, finishFitsOnOtherGames } from './finish-on-other-games.ts';
import type { FitChoices } from './fit-chance.ts';
import { GrounderChances } from './grounder-chances.ts';
import type { GrounderModels } from './grounder-models.ts';
import type { Grounders } from './grounders.ts';
import { reachAmongMen } from './reach-among-men.ts';

/**
 * What only ratings ask, beside a book's own models: these follow what the book's men did on its balls, and a rating asks what the average
 * man would have done. Each is empty where the book has no such balls.
 */
export interface RatingModels {
  readonly finishOnOtherGames: FinishOnOtherGames;
  /** Positions 1 to 6 (docs/decisions/049-reach-among-men.md). */
  readonly groundReach: readonly FittedModel[];
  /** Positions 1 to 9. */
  readonly airReach: readonly FittedModel[];
}

/** Those of its fits that an earlier build's may begin; G on other games begins at the book's own. */
export function listRatingFits({ groundReach, airReach }: RatingModels): FittedModel[] {
  return [...groundReach, ...airReach];
}

/** Fits what ratings ask of grounders; `models` are the book's own. */
export function* groundRatingFits(
  grounders: Grounders,
  models: GrounderModels,
  choices: FitChoices = {},
): Fitting<Pick<RatingModels, 'finishOnOtherGames' | 'groundReach'>> {
  const [finishOnOtherGames, groundReach] = yield* together([
    finishFitsOnOtherGames(grounders, models.finish),
    reachAmongMen(grounders, models, choices),
  ]);
  return { finishOnOtherGames, groundReach };
}

/** Chances of average men on grounders. */
export function averageOnGround(
  grounders: Grounders,
  models: GrounderModels,
  { groundReach }: RatingModels,
): GrounderChances {
  const positions = models.positions.map((own, k) => ({ ...own, reach: groundReach[k] }));
  return new GrounderChances(grounders, { ...models, positions });
}

/** Chances of average men on balls in the air. */
export function averageInAir(balls: AirBalls, models: AirModels, { airReach }: RatingModels): AirChances {
  return new AirChances(balls, { ...models, reach: airReach });
}
