import { type FitSettings, fitModel, type ModelData } from '../models/fit-model.ts';
import type { FittedModel } from '../models/fitted-model.ts';
import type { Term } from '../models/terms.ts';

/** What a caller may ask for in place of a model's own terms and smoothing, by the model's name: for trials and comparisons. */
export interface FitChoices {
  /** Terms to use in place of the model's own. */
  readonly terms?: (name: string, own: readonly Term[]) => readonly Term[];
  /** Smoothing parameters to hold fixed; undefined lets the data choose. */
  readonly smoothing?: (name: string) => readonly number[] | undefined;
}

/** Coefficients of chances on the logit scale are believed to be within some tens of zero. */
const WEAK_PRIOR = 0.01;

/** Fits a chance (a binomial surface) with the weak prior that all chance models share. Throws FitFailure. */
export function fitChance(
  name: string,
  terms: readonly Term[],
  data: ModelData,
  choices: FitChoices = {},
): FittedModel {
  const spec = { name, family: 'binomial', terms: choices.terms?.(name, terms) ?? terms } as const;
  return fitModel(spec, data, { ridge: WEAK_PRIOR, ...fixedSmoothing(name, choices) });
}

/** The part of fit settings that holds a model's smoothing fixed where the choices say so. */
export function fixedSmoothing(name: string, choices: FitChoices): FitSettings {
  const held = choices.smoothing?.(name);
  return held === undefined ? {} : { fixedSmoothing: held };
}
