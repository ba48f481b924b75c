import { compileDesign, type ModelSpec } from './design.ts';
import { familyOf } from './family.ts';
import { type FitProbe, probeDeviance } from './fit-probe.ts';
import type { FitRecord } from './fit-record.ts';
import type { FittedModel } from './fitted-model.ts';

/** A fitted model as plain JSON data; numbers survive the round trip bit for bit. */
export interface ModelFile {
  readonly version: 2;
  readonly spec: ModelSpec;
  readonly coefficients: readonly number[];
  readonly smoothing: readonly number[];
  readonly termEdf: readonly number[];
  readonly edf: number;
  readonly scale: number;
  readonly ridge: number;
  readonly probe: FitProbe;
  readonly record: FitRecord;
}

const VERSION = 2;
/** Logarithms and exponentials differ by some last bits between engines. */
const AGREEMENT = 1e-9;

export function toModelFile(model: FittedModel): ModelFile {
  const { design, coefficients, smoothing, termEdf, edf, scale, ridge, probe, record } = model;
  return {
    version: VERSION,
    spec: design.spec,
    coefficients: [...coefficients],
    smoothing,
    termEdf,
    edf,
    scale,
    ridge,
    probe,
    record,
  };
}

/**
 * Throws RangeError for another version, for a file whose coefficients do not fit its own specification, and for one whose
 * objective, recomputed, is not what the file says (docs/engine.md, "Model files").
 */
export function fromModelFile(file: ModelFile): FittedModel {
  if (file.version !== VERSION)
    throw new RangeError(`model file version ${VERSION} expected, received ${file.version}`);
  const design = compileDesign(file.spec);
  if (file.coefficients.length !== design.width) {
    throw new RangeError(
      `model ${file.spec.name} needs ${design.width} coefficients, its file has ${file.coefficients.length}`,
    );
  }
  const coefficients = Float64Array.from(file.coefficients);
  const { smoothing, termEdf, edf, scale, ridge, probe, record } = file;
  const name = file.spec.name;
  demandAgreement(
    name,
    'deviance on the probe rows',
    probe.deviance,
    probeDeviance(design, familyOf(file.spec.family), coefficients, probe),
  );
  return { design, coefficients, smoothing, termEdf, edf, scale, covariance: null, ridge, probe, record };
}

function demandAgreement(name: string, what: string, said: number, found: number): void {
  if (Math.abs(said - found) <= AGREEMENT * (Math.abs(said) + 1)) return;
  throw new RangeError(
    `the file of model ${name} is damaged: its ${what} is ${found} when recomputed, the file says ${said}`,
  );
}
