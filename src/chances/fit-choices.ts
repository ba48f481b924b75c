import { specOf, type TaskFit } from '../models/fitting.ts';
import type { FitChoices } from './fit-chance.ts';

/** Fits by the names of their models. */
export type NamedFits = ReadonlyMap<string, TaskFit>;

export function nameFits(fits: readonly TaskFit[]): NamedFits {
  return new Map(fits.map((fit) => [specOf(fit).name, fit]));
}

/**
 * Begin each fit where an earlier one of the same name and terms ended. Where it ends is the same within the tolerances of a fit,
 * not to the last digit (docs/decisions/012-where-a-fit-begins.md).
 */
export function beginningAt(earlier: NamedFits): FitChoices {
  return {
    start: (name, terms) => {
      const fit = earlier.get(name);
      return fit !== undefined && JSON.stringify(specOf(fit).terms) === JSON.stringify(terms) ? fit : undefined;
    },
  };
}

/** Fit again as these were fitted: their terms, their smoothing held, their coefficients to begin at. */
export function sameChoices(fits: NamedFits): FitChoices {
  const known = (name: string) => fits.get(name);
  return {
    terms: (name, own) => {
      const fit = known(name);
      return fit === undefined ? own : specOf(fit).terms;
    },
    smoothing: (name) => known(name)?.smoothing,
    ...beginningAt(fits),
  };
}
