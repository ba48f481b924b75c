import { basisRowInto, type UniformBasis } from '../splines/uniform-basis.ts';
import type { FittedModel } from './fitted-model.ts';

/**
 * Fast evaluation of single terms, for loops that ask one model many times with most covariates unchanged: what does
 * not change is summed once, what changes is read off a curve or a surface.
 */
export interface Curve {
  readonly basis: UniformBasis;
  readonly coefficients: Float64Array;
}

export interface Surface {
  /** First margin, rows; second margin, columns. */
  readonly first: UniformBasis;
  readonly second: UniformBasis;
  readonly coefficients: Float64Array;
}

const scratch = new Float64Array(8);

export function evaluateCurve(curve: Curve, x: number): number {
  const at = basisRowInto(curve.basis, x, scratch, 0);
  const c = curve.coefficients;
  return scratch[0] * c[at] + scratch[1] * c[at + 1] + scratch[2] * c[at + 2] + scratch[3] * c[at + 3];
}

export function evaluateSurface(surface: Surface, x: number, y: number): number {
  const row = basisRowInto(surface.first, x, scratch, 0);
  const column = basisRowInto(surface.second, y, scratch, 4);
  const width = surface.second.size;
  const c = surface.coefficients;
  let sum = 0;
  for (let i = 0; i < 4; i += 1) {
    const at = (row + i) * width + column;
    sum += scratch[i] * (scratch[4] * c[at] + scratch[5] * c[at + 1] + scratch[6] * c[at + 2] + scratch[7] * c[at + 3]);
  }
  return sum;
}

/** The smooth of one covariate over all rows. Throws RangeError when the model has none. */
export function curveOf(model: FittedModel, covariate: string): Curve {
  const t = model.design.terms.findIndex(
    ({ term }) => term.kind === 'smooth' && term.margin.covariate === covariate && term.by === undefined,
  );
  if (t < 0) throw new RangeError(`model ${model.design.spec.name} has no smooth of ${covariate}`);
  const basis = model.design.terms[t].bases[0];
  const own = termBlock(model, t);
  if (!basis.cyclic) return { basis, coefficients: own };
  // The functions that go over the end are the first ones again; written out, they need no wrapping in loops.
  return { basis, coefficients: Float64Array.from({ length: own.length + 3 }, (_, k) => own[k % own.length]) };
}

/** The tensor of two covariates over all rows, neither of them cyclic. Throws RangeError when the model has none. */
export function surfaceOf(model: FittedModel, first: string, second: string): Surface {
  const t = model.design.terms.findIndex(
    (term) =>
      term.term.kind === 'tensor' &&
      term.term.by === undefined &&
      term.bases.length === 2 &&
      term.bases.every((basis) => !basis.cyclic) &&
      term.covariates[0] === first &&
      term.covariates[1] === second,
  );
  if (t < 0) throw new RangeError(`model ${model.design.spec.name} has no tensor of ${first} and ${second}`);
  const [a, b] = model.design.terms[t].bases;
  return { first: a, second: b, coefficients: termBlock(model, t) };
}

/** A surface at a fixed value of its second covariate, as a curve in the first; `out` (length first.size) is reused. */
export function sliceSurfaceInto(surface: Surface, y: number, out: Float64Array): Curve {
  const column = basisRowInto(surface.second, y, scratch, 4);
  const width = surface.second.size;
  const c = surface.coefficients;
  for (let i = 0; i < surface.first.size; i += 1) {
    const at = i * width + column;
    out[i] = scratch[4] * c[at] + scratch[5] * c[at + 1] + scratch[6] * c[at + 2] + scratch[7] * c[at + 3];
  }
  return { basis: surface.first, coefficients: out };
}

/** Coefficient of one level of a factor or random term; 0 for the baseline or a missing level. */
export function levelEffect(model: FittedModel, covariate: string, level: number): number {
  const t = model.design.terms.findIndex(
    ({ term }) => (term.kind === 'factor' || term.kind === 'random') && term.covariate === covariate,
  );
  if (t < 0) throw new RangeError(`model ${model.design.spec.name} has no levels of ${covariate}`);
  const at = model.design.terms[t].term.kind === 'factor' ? level - 1 : level;
  return at >= 0 ? model.coefficients[model.design.offsets[t] + at] : 0;
}

function termBlock(model: FittedModel, t: number): Float64Array {
  const start = model.design.offsets[t];
  return model.coefficients.subarray(start, start + model.design.terms[t].width);
}
