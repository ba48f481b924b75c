import type { ModelData } from '../models/fit-model.ts';
import type { FittedModel } from '../models/fitted-model.ts';
import { type Fitting, oneFit, type TaskFit } from '../models/fitting.ts';
import type { Term } from '../models/terms.ts';

/** What a caller may ask for in place of a model's own terms and smoothing, by the model's name: for trials and comparisons. */
export interface FitChoices {
  /** Terms to use in place of the model's own. */
  readonly terms?: (name: string, own: readonly Term[]) => readonly Term[];
  /** Smoothing parameters to hold fixed; undefined lets the data choose. */
  readonly smoothing?: (name: string) => readonly number[] | undefined;
  /** An earlier fit of the same terms to begin at; undefined begins afresh. */
  readonly start?: (name: string, terms: readonly Term[]) => TaskFit | undefined;
}

/** Coefficients of chances on the logit scale are believed to be within some tens of zero. */
const WEAK_PRIOR = 0.01;

/** Fits a chance (a binomial surface) with the weak prior that all chance models share. */
export function* chanceFit(
  name: string,
  own: readonly Term[],
  data: () => ModelData,
  choices: FitChoices = {},
): Fitting<FittedModel> {
  const terms = choices.terms?.(name, own) ?? own;
  const settings = { ridge: WEAK_PRIOR, ...chosenSettings(name, terms, choices) };
  return yield* oneFit({ name, family: 'binomial', terms }, settings, data);
}

/** The part of fit settings that the choices decide: smoothing held fixed, and where to begin. */
export function chosenSettings<Fit extends TaskFit = FittedModel>(
  name: string,
  terms: readonly Term[],
  choices: FitChoices,
): { fixedSmoothing?: readonly number[]; start?: Fit } {
  const held = choices.smoothing?.(name);
  // A name is that of one kind of model.
  const start = choices.start?.(name, terms) as Fit | undefined;
  return { ...(held === undefined ? {} : { fixedSmoothing: held }), ...(start === undefined ? {} : { start }) };
}
