import { type CompiledTerm, compileTerm } from './compile-term.ts';
import type { FamilyName } from './family.ts';
import { type Term, termCovariates } from './terms.ts';

/** A model before it has seen data. */
export interface ModelSpec {
  readonly name: string;
  readonly family: FamilyName;
  /** The intercept is always there and not listed. */
  readonly terms: readonly Term[];
}

/** A specification made ready for arithmetic: coefficient 0 is the intercept, then each term's block. */
export interface Design {
  readonly spec: ModelSpec;
  readonly terms: readonly CompiledTerm[];
  /** First coefficient of each term. */
  readonly offsets: readonly number[];
  readonly width: number;
  /** Names of the covariates in the order of first use. */
  readonly covariates: readonly string[];
}

/** Throws RangeError for a term with impossible settings. */
export function compileDesign(spec: ModelSpec): Design {
  const terms = spec.terms.map(compileTerm);
  const offsets: number[] = [];
  let width = 1;
  for (const term of terms) {
    offsets.push(width);
    width += term.width;
  }
  return { spec, terms, offsets, width, covariates: [...new Set(spec.terms.flatMap(termCovariates))] };
}

/** Columns by name; NaN is a missing value. */
export type Covariates = Readonly<Record<string, ArrayLike<number>>>;

/** Throws RangeError when a covariate is missing or of another length. */
export function checkCovariates(design: Design, covariates: Covariates, count: number): void {
  for (const name of design.covariates) {
    const length = covariates[name]?.length;
    if (length !== count) {
      throw new RangeError(
        `model ${design.spec.name} needs covariate ${name} with ${count} values, received ${length ?? 'none'}`,
      );
    }
  }
}
