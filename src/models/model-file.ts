import { compileDesign, type Design, type ModelSpec } from './design.ts';
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
/** A stiff penalty on coefficients of ordinary size leaves this many digits of its product. */
const COARSE_AGREEMENT = 1e-6;

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
  const probed = probeDeviance(design, familyOf(file.spec.family), coefficients, probe);
  demandAgreement(name, 'deviance on the probe rows', probe.deviance, probed, AGREEMENT);
  const roughness = fullRoughness(design, coefficients, smoothing, ridge);
  demandAgreement(name, 'penalised deviance', record.endObjective, record.deviance + roughness, COARSE_AGREEMENT);
  return { design, coefficients, smoothing, termEdf, edf, scale, covariance: null, ridge, probe, record };
}

/** beta'S beta from the full coefficients: the reflections that the fit worked in leave it as it is. */
function fullRoughness(
  design: Design,
  coefficients: Float64Array,
  smoothing: readonly number[],
  ridge: number,
): number {
  let total = 0;
  let j = 0;
  for (let i = 1; i < coefficients.length; i += 1) total += ridge * coefficients[i] * coefficients[i];
  design.terms.forEach(({ penalties }, t) => {
    const own = coefficients.subarray(design.offsets[t]);
    for (const { width, start, column, value } of penalties) {
      const lambda = smoothing[j++];
      for (let i = 0; i < width; i += 1)
        for (let at = start[i]; at < start[i + 1]; at += 1) total += lambda * own[i] * value[at] * own[column[at]];
    }
  });
  return total;
}

function demandAgreement(name: string, what: string, said: number, found: number, share: number): void {
  if (Math.abs(said - found) <= share * (Math.abs(said) + 1)) return;
  throw new RangeError(
    `the file of model ${name} is damaged: its ${what} is ${found} when recomputed, the file says ${said}`,
  );
}
