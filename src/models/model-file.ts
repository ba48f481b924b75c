import { compileDesign, type ModelSpec } from './design.ts';
import type { FitRecord } from './fit-record.ts';
import type { FittedModel } from './fitted-model.ts';

/** A fitted model as plain JSON data; numbers survive the round trip bit for bit. */
export interface ModelFile {
  readonly version: 1;
  readonly spec: ModelSpec;
  readonly coefficients: readonly number[];
  readonly smoothing: readonly number[];
  readonly termEdf: readonly number[];
  readonly edf: number;
  readonly scale: number;
  readonly record: FitRecord;
}

export function toModelFile(model: FittedModel): ModelFile {
  const { design, coefficients, smoothing, termEdf, edf, scale, record } = model;
  return { version: 1, spec: design.spec, coefficients: [...coefficients], smoothing, termEdf, edf, scale, record };
}

/** Throws RangeError for another version or a file whose coefficients do not fit its own specification. */
export function fromModelFile(file: ModelFile): FittedModel {
  if (file.version !== 1) throw new RangeError(`model file version 1 expected, received ${file.version}`);
  const design = compileDesign(file.spec);
  if (file.coefficients.length !== design.width) {
    throw new RangeError(
      `model ${file.spec.name} needs ${design.width} coefficients, its file has ${file.coefficients.length}`,
    );
  }
  const { smoothing, termEdf, edf, scale, record } = file;
  return { design, coefficients: Float64Array.from(file.coefficients), smoothing, termEdf, edf, scale, record };
}
