import { fromModelFile, type ModelFile, toModelFile } from '../models/model-file.ts';
import { FINISH_LEVELS, type FinishModel } from './finish-model.ts';

/** G as plain JSON data. */
export interface FinishModelFile {
  readonly infield: readonly (readonly ModelFile[])[];
  readonly outfieldRate: number;
}

export function toFinishModelFile({ infield, outfieldRate }: FinishModel): FinishModelFile {
  return { infield: infield.map((levels) => levels.map(toModelFile)), outfieldRate };
}

/** Throws RangeError for a file that another version wrote or that does not fit its own specifications. */
export function fromFinishModelFile({ infield, outfieldRate }: FinishModelFile): FinishModel {
  for (const { length } of infield)
    if (length !== FINISH_LEVELS)
      throw new RangeError(`models of finish know ${FINISH_LEVELS} levels of knowledge, their file has ${length}`);
  return { infield: infield.map((levels) => levels.map(fromModelFile)), outfieldRate };
}
