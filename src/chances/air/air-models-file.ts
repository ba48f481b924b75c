import { fromModelFile, type ModelFile, toModelFile } from '../../models/model-file.ts';
import type { AirModels } from './air-models.ts';
import { fromKeptFile, type KeptModelFile, toKeptFile } from './kept-model-file.ts';

/** Everything fitted for balls in the air as plain JSON data. */
export interface AirModelsFile {
  readonly carry: { readonly distance: ModelFile; readonly hang: ModelFile } | null;
  readonly reach: readonly ModelFile[];
  readonly kept: KeptModelFile;
  readonly hopRates: readonly number[];
  readonly direct: readonly { readonly kind: number; readonly model: ModelFile }[];
}

export function toAirModelsFile({ carry, reach, kept, hopRates, direct }: AirModels): AirModelsFile {
  const { fitted } = carry;
  return {
    carry: fitted === null ? null : { distance: toModelFile(fitted.distance), hang: toModelFile(fitted.hang) },
    reach: reach.map(toModelFile),
    kept: toKeptFile(kept),
    hopRates: [...hopRates],
    direct: direct.map(({ kind, model }) => ({ kind, model: toModelFile(model) })),
  };
}

/** Throws RangeError for a file that another version wrote or that does not fit its own specifications. */
export function fromAirModelsFile({ carry, reach, kept, hopRates, direct }: AirModelsFile): AirModels {
  return {
    carry: {
      fitted: carry === null ? null : { distance: fromModelFile(carry.distance), hang: fromModelFile(carry.hang) },
    },
    reach: reach.map(fromModelFile),
    kept: fromKeptFile(kept),
    hopRates: [...hopRates],
    direct: direct.map(({ kind, model }) => ({ kind, model: fromModelFile(model) })),
  };
}
