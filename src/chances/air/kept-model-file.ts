import { fromModelFile, type ModelFile, toModelFile } from '../../models/model-file.ts';
import type { KeptModel } from './kept-model.ts';

export interface KeptModelFile {
  readonly fitted: ModelFile | null;
  readonly share: number;
}

export function toKeptFile({ fitted, share }: KeptModel): KeptModelFile {
  return { fitted: fitted && toModelFile(fitted), share };
}

export function fromKeptFile({ fitted, share }: KeptModelFile): KeptModel {
  return { fitted: fitted && fromModelFile(fitted), share };
}
