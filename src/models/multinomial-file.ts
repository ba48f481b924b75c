import { compileDesign } from './design.ts';
import { type FittedMultinomial, type MultinomialSpec, predictCategories } from './fit-multinomial.ts';
import type { FitRecord } from './fit-record.ts';
import { type Term, termMargins } from './terms.ts';

/** A fitted multinomial logit as plain JSON data; numbers survive the round trip bit for bit. */
export interface MultinomialFile {
  readonly version: 1;
  readonly spec: MultinomialSpec;
  readonly coefficients: readonly (readonly number[])[];
  readonly smoothing: readonly number[];
  readonly edf: number;
  readonly record: FitRecord;
  /** What the model says of some points, category by category, recomputed on loading. */
  readonly probe: readonly (readonly number[])[];
}

const VERSION = 1;
const PROBES = 16;
/** Logarithms and exponentials differ by some last bits between engines. */
const AGREEMENT = 1e-9;

export function toMultinomialFile(model: FittedMultinomial): MultinomialFile {
  const { spec, coefficients, smoothing, edf, record } = model;
  return {
    version: VERSION,
    spec,
    coefficients: coefficients.map((own) => [...own]),
    smoothing,
    edf,
    record,
    probe: probe(model),
  };
}

/** Throws RangeError for another version, and for a file that does not fit its own specification or says what it did not. */
export function fromMultinomialFile(file: MultinomialFile): FittedMultinomial {
  if (file.version !== VERSION)
    throw new RangeError(`multinomial file version ${VERSION} expected, received ${file.version}`);
  const { spec, smoothing, edf, record } = file;
  const design = compileDesign({ name: spec.name, terms: spec.terms, family: 'binomial' });
  const coefficients = file.coefficients.map((own) => Float64Array.from(own));
  if (coefficients.length !== spec.categories - 1 || coefficients.some((own) => own.length !== design.width))
    throw new RangeError(
      `model ${spec.name} needs ${spec.categories - 1} times ${design.width} coefficients, its file has ${file.coefficients.map((own) => own.length).join(', ')}`,
    );
  const model = { spec, design, coefficients, smoothing, edf, record };
  const said = file.probe.flat();
  const found = probe(model).flat();
  if (said.length !== found.length || !found.every((p, k) => Math.abs(p - said[k]) <= AGREEMENT))
    throw new RangeError(`the file of model ${spec.name} is damaged: its chances on the probe points are others`);
  return model;
}

/** Chances at points spread over the ranges of the covariates, every level among them in turn. */
function probe(model: FittedMultinomial): number[][] {
  const covariates: Record<string, Float64Array> = {};
  const points = (of: (k: number) => number) => Float64Array.from({ length: PROBES }, (_, k) => of(k));
  model.spec.terms.forEach((term, t) => {
    // Another step for each covariate, or they would all rise together.
    for (const { covariate, lo, hi } of termMargins(term))
      covariates[covariate] ??= points(
        (k) => lo + ((hi - lo) * ((k * (2 * t + 3 + covariate.length)) % PROBES)) / PROBES,
      );
    for (const [covariate, levels] of levelsOf(term)) covariates[covariate] ??= points((k) => (k * 7) % levels);
  });
  return predictCategories(model, covariates, PROBES).map((chances) => [...chances]);
}

function levelsOf(term: Term): [string, number][] {
  switch (term.kind) {
    case 'factor':
    case 'random':
      return [[term.covariate, term.levels]];
    case 'linear':
      return [[term.covariate, 2]];
    default:
      return term.by === undefined ? [] : [[term.by.covariate, term.by.level + 1]];
  }
}
