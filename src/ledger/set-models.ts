import type { AirModelsFile } from '../chances/air/air-models-file.ts';
import type { CatchModels } from '../chances/air/flight-chances.ts';
import { fromKeptFile, toKeptFile } from '../chances/air/kept-model-file.ts';
import type { InfieldModels } from '../chances/grounder-models.ts';
import type { GrounderModelsFile } from '../chances/grounder-models-file.ts';
import { fromModelFile, toModelFile } from '../models/model-file.ts';

/** The models that set marks of one class of balls rest on, and nothing else of a build. */
export type SetModels =
  | { readonly ballClass: 'ground'; readonly infield: InfieldModels }
  | ({ readonly ballClass: 'air' } & CatchModels);

/** The same as plain JSON data. */
export type SetModelsFile =
  | ({ readonly ballClass: 'ground' } & Pick<GrounderModelsFile, 'travel' | 'positions'>)
  | ({ readonly ballClass: 'air' } & Pick<AirModelsFile, 'reach' | 'kept'>);

export function toSetModelsFile(models: SetModels): SetModelsFile {
  if (models.ballClass === 'air')
    return { ballClass: 'air', reach: models.reach.map(toModelFile), kept: toKeptFile(models.kept) };
  const { travel, positions } = models.infield;
  return {
    ballClass: 'ground',
    travel: travel.fitted === null ? null : toModelFile(travel.fitted),
    positions: positions.map(({ reach, promise }) => ({ reach: toModelFile(reach), promise: toModelFile(promise) })),
  };
}

/** Throws RangeError for a file that another version wrote or that does not fit its own specifications. */
export function fromSetModelsFile(file: SetModelsFile): SetModels {
  if (file.ballClass === 'air')
    return { ballClass: 'air', reach: file.reach.map(fromModelFile), kept: fromKeptFile(file.kept) };
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
