import { fromModelFile, type ModelFile, toModelFile } from '../models/model-file.ts';
import type { TurnModel } from './turn-model.ts';

/** The turn's models as plain JSON data. */
export interface TurnModelFile {
  readonly gathered: readonly ModelFile[];
  readonly thrown: readonly ModelFile[];
}

export function toTurnModelFile({ gathered, thrown }: TurnModel): TurnModelFile {
  return { gathered: gathered.map(toModelFile), thrown: thrown.map(toModelFile) };
}

/** Throws RangeError for a file that another version wrote or that does not fit its own specifications. */
export function fromTurnModelFile({ gathered, thrown }: TurnModelFile): TurnModel {
  return { gathered: gathered.map(fromModelFile), thrown: thrown.map(fromModelFile) };
}
