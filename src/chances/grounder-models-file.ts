import { fromModelFile, type ModelFile, toModelFile } from '../models/model-file.ts';
import { FINISH_LEVELS } from './finish-model.ts';
import type { GrounderModels } from './grounder-models.ts';

/** Everything fitted for grounders as plain JSON data. */
export interface GrounderModelsFile {
  readonly travel: ModelFile | null;
  readonly positions: readonly { readonly reach: ModelFile; readonly promise: ModelFile }[];
  readonly finish: { readonly infield: readonly (readonly ModelFile[])[]; readonly outfieldRate: number };
  readonly direct: readonly ModelFile[];
}

export function toGrounderModelsFile({ travel, positions, finish, direct }: GrounderModels): GrounderModelsFile {
  return {
    travel: travel.fitted === null ? null : toModelFile(travel.fitted),
    positions: positions.map(({ reach, promise }) => ({ reach: toModelFile(reach), promise: toModelFile(promise) })),
    finish: { infield: finish.infield.map((levels) => levels.map(toModelFile)), outfieldRate: finish.outfieldRate },
    direct: direct.map(toModelFile),
  };
}

/** Throws RangeError for a file that another version wrote or that does not fit its own specifications. */
export function fromGrounderModelsFile({ travel, positions, finish, direct }: GrounderModelsFile): GrounderModels {
  for (const { length } of finish.infield)
    if (length !== FINISH_LEVELS)
      throw new RangeError(`models of finish know ${FINISH_LEVELS} levels of knowledge, their file has ${length}`);
  return {
    travel: { fitted: travel === null ? null : fromModelFile(travel) },
    positions: positions.map(({ reach, promise }) => ({
      reach: fromModelFile(reach),
      promise: fromModelFile(promise),
    })),
    finish: { infield: finish.infield.map((levels) => levels.map(fromModelFile)), outfieldRate: finish.outfieldRate },
    direct: direct.map(fromModelFile),
  };
}
