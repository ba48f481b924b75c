import type { GrounderModelsFile } from '../chances/grounder-models-file.ts';
import type { InfieldModels } from '../chances/infield-chances.ts';
import type { FittedModel } from '../models/fitted-model.ts';
import { fromModelFile, type ModelFile, toModelFile } from '../models/model-file.ts';

/** The models that set marks of one class of balls rest on, and nothing else of a build. */
export type SetModels =
  | { readonly ballClass: 'ground'; readonly infield: InfieldModels }
  | { readonly ballClass: 'air'; readonly reach: readonly FittedModel[] };

/** The same as plain JSON data. */
export type SetModelsFile =
  | ({ readonly ballClass: 'ground' } & Pick<GrounderModelsFile, 'travel' | 'positions'>)
  | { readonly ballClass: 'air'; readonly reach: readonly ModelFile[] };

export function toSetModelsFile(models: SetModels): SetModelsFile {
  if (models.ballClass === 'air') return { ballClass: 'air', reach: models.reach.map(toModelFile) };
  const { travel, positions } = models.infield;
  return {
    ballClass: 'ground',
    travel: travel.fitted === null ? null : toModelFile(travel.fitted),
    positions: positions.map(({ reach, promise }) => ({ reach: toModelFile(reach), promise: toModelFile(promise) })),
  };
}

/** Throws RangeError for a file that another version wrote or that does not fit its own specifications. */
export function fromSetModelsFile(file: SetModelsFile): SetModels {
  if (file.ballClass === 'air') return { ballClass: 'air', reach: file.reach.map(fromModelFile) };
  return {
    ballClass: 'ground',
    infield: {
      travel: { fitted: file.travel === null ? null : fromModelFile(file.travel) },
      positions: file.positions.map(({ reach, promise }) => ({
        reach: fromModelFile(reach),
        promise: fromModelFile(promise),
      })),
    },
  };
}
