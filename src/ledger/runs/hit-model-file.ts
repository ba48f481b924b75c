import { fromMultinomialFile, type MultinomialFile, toMultinomialFile } from '../../models/multinomial-file.ts';
import type { HitModel } from './hit-model.ts';

/** A hit model as plain JSON data. */
export interface HitModelFile {
  readonly parks: readonly string[];
  readonly groups: readonly {
    readonly name: string;
    readonly fitted: MultinomialFile | null;
    readonly shares: readonly number[];
  }[];
}

export function toHitModelFile({ parks, groups }: HitModel): HitModelFile {
  const pack = ({ name, fitted, shares }: HitModel['groups'][number]) => ({
    name,
    fitted: fitted && toMultinomialFile(fitted),
    shares,
  });
  return { parks, groups: groups.map(pack) };
}

/** Throws RangeError for a file that another version wrote or that does not fit its own specifications. */
export function fromHitModelFile({ parks, groups }: HitModelFile): HitModel {
  const unpack = ({ name, fitted, shares }: HitModelFile['groups'][number]) => ({
    name,
    fitted: fitted && fromMultinomialFile(fitted),
    shares,
  });
  return { parks, groups: groups.map(unpack) };
}
