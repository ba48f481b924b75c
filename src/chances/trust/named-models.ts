import type { FittedModel } from '../../models/fitted-model.ts';
import type { FitChoices } from '../fit-chance.ts';
import type { GrounderModels } from '../grounder-models.ts';
import { additiveOnly } from './plainer-models.ts';

/** All fitted models by name, in the order in which a build fits them. */
export function namedModels(models: GrounderModels): Map<string, FittedModel> {
  const all = [
    ...(models.travel.fitted === null ? [] : [models.travel.fitted]),
    ...models.positions.flatMap(({ reach, promise }) => [reach, promise]),
    ...models.finish.infield.flat(),
    ...models.direct,
  ];
  return new Map(all.map((model) => [model.design.spec.name, model]));
}

/** Fit again as these were fitted: their terms, their smoothing held. */
export function sameChoices(models: ReadonlyMap<string, FittedModel>): FitChoices {
  return {
    terms: (name, own) => models.get(name)?.design.spec.terms ?? own,
    smoothing: (name) => models.get(name)?.smoothing,
  };
}

/** Fit the same covariates, each for itself; the data choose the smoothing. */
export function additiveChoices(models: ReadonlyMap<string, FittedModel>): FitChoices {
  return { terms: (name, own) => additiveOnly(models.get(name)?.design.spec.terms ?? own) };
}
