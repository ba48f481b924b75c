import { fitModel, type ModelData } from '../models/fit-model.ts';
import type { FittedModel } from '../models/fitted-model.ts';
import type { Term } from '../models/terms.ts';

/** Coefficients of chances on the logit scale are believed to be within some tens of zero. */
const WEAK_PRIOR = 0.01;

/** Fits a chance (a binomial surface) with the weak prior that all chance models share. Throws FitFailure. */
export function fitChance(name: string, terms: readonly Term[], data: ModelData): FittedModel {
  return fitModel({ name, family: 'binomial', terms }, data, { ridge: WEAK_PRIOR });
}
