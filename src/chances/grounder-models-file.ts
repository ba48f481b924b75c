import { fromModelFile, type ModelFile, toModelFile } from '../models/model-file.ts';
import { type FinishModelFile, fromFinishModelFile, toFinishModelFile } from './finish-model-file.ts';
import type { GrounderModels } from './grounder-models.ts';

/** Everything fitted for grounders as plain JSON data. */
export interface GrounderModelsFile {
  readonly travel: ModelFile | null;
  readonly positions: readonly { readonly reach: ModelFile; readonly promise: ModelFile }[];
  readonly finish: FinishModelFile;
  readonly direct: readonly ModelFile[];
}

export function toGrounderModelsFile({ travel, positions, finish, direct }: GrounderModels): GrounderModelsFile {
  return {
    travel: travel.fitted === null ? null : toModelFile(travel.fitted),
    positions: positions.map(({ reach, promise }) => ({ reach: toModelFile(reach), promise: toModelFile(promise) })),
    finish: toFinishModelFile(finish),
    direct: direct.map(toModelFile),
  };
}

/** Throws RangeError for a file that another version wrote or that does not fit its own specifications. */
export function fromGrounderModelsFile({ travel, positions, finish, direct }: GrounderModelsFile): GrounderModels {
  return {
    travel: { fitted: travel === null ? null : fromModelFile(travel) },
    positions: positions.map(({ reach, promise }) => ({
      reach: fromModelFile(reach),
      promise: fromModelFile(promise),
    })),
    finish: fromFinishModelFile(finish),
    direct: direct.map(fromModelFile),
  };
}
