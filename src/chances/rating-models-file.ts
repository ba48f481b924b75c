import { fromModelFile, type ModelFile, toModelFile } from '../models/model-file.ts';
import { type FinishModelFile, fromFinishModelFile, toFinishModelFile } from './finish-model-file.ts';
import type { RatingModels } from './rating-models.ts';

/** What ratings ask, as plain JSON data. */
export interface RatingModelsFile {
  readonly finishOnOtherGames: readonly FinishModelFile[];
  readonly groundReach: readonly ModelFile[];
  readonly airReach: readonly ModelFile[];
}

export function toRatingModelsFile({ finishOnOtherGames, groundReach, airReach }: RatingModels): RatingModelsFile {
  return {
    finishOnOtherGames: finishOnOtherGames.map(toFinishModelFile),
    groundReach: groundReach.map(toModelFile),
    airReach: airReach.map(toModelFile),
  };
}

/** Throws RangeError for a file that another version wrote or that does not fit its own specifications. */
export function fromRatingModelsFile({ finishOnOtherGames, groundReach, airReach }: RatingModelsFile): RatingModels {
  return {
    finishOnOtherGames: finishOnOtherGames.map(fromFinishModelFile),
    groundReach: groundReach.map(fromModelFile),
    airReach: airReach.map(fromModelFile),
  };
}
