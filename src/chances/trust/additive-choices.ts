import { specOf } from '../../models/fitting.ts';
import type { FitChoices } from '../fit-chance.ts';
import type { NamedFits } from '../fit-choices.ts';
import { additiveOnly } from './plainer-models.ts';

/** Fit the same covariates, each for itself; the data choose the smoothing. */
export function additiveChoices(fits: NamedFits): FitChoices {
  return {
    terms: (name, own) => {
      const fit = fits.get(name);
      return additiveOnly(fit === undefined ? own : specOf(fit).terms);
    },
  };
}
