import { specOf } from '../../models/fitting.ts';
import type { FitChoices } from '../fit-chance.ts';
import { beginningAt, type NamedFits } from '../fit-choices.ts';
import { additiveOnly } from './plainer-models.ts';

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

/** Fit the same covariates, each for itself; the data choose the smoothing. */
export function additiveChoices(fits: NamedFits): FitChoices {
  return {
    terms: (name, own) => {
      const fit = fits.get(name);
      return additiveOnly(fit === undefined ? own : specOf(fit).terms);
    },
  };
}
