import { fromModelFile, type ModelFile, toModelFile } from '../../models/model-file.ts';
import type { HitChance, HitModel } from './hit-model.ts';

interface HitChanceFile {
  readonly fitted: ModelFile | null;
  readonly share: number;
}

/** A hit model as plain JSON data. */
export interface HitModelFile {
  readonly parks: readonly string[];
  readonly groups: readonly { readonly name: string; readonly extra: HitChanceFile; readonly triple: HitChanceFile }[];
}

export function toHitModelFile({ parks, groups }: HitModel): HitModelFile {
  const pack = ({ fitted, share }: HitChance) => ({ fitted: fitted === null ? null : toModelFile(fitted), share });
  return {
    parks,
    groups: groups.map(({ name, extra, triple }) => ({ name, extra: pack(extra), triple: pack(triple) })),
  };
}

/** Throws RangeError for a file that another version wrote or that does not fit its own specifications. */
export function fromHitModelFile({ parks, groups }: HitModelFile): HitModel {
  const unpack = ({ fitted, share }: HitChanceFile) => ({
    fitted: fitted === null ? null : fromModelFile(fitted),
    share,
  });
  return {
    parks,
    groups: groups.map(({ name, extra, triple }) => ({ name, extra: unpack(extra), triple: unpack(triple) })),
  };
}
