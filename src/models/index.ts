/**
 * `leatherbook/models`: penalised additive models by themselves - generalised linear models with P-splines, tensor
 * products and random intercepts, smoothing chosen by marginal likelihood. Nothing here needs Node; docs/engine.md states the
 * objective and shows a worked example.
 */
export type { Covariates, Design, ModelSpec } from './design.ts';
export type { FamilyName } from './family.ts';
export { type FitSettings, fitModel, type ModelData } from './fit-model.ts';
export {
  type FittedMultinomial,
  fitMultinomial,
  type MultinomialData,
  type MultinomialSettings,
  type MultinomialSpec,
  predictCategories,
} from './fit-multinomial.ts';
export type { FitProbe } from './fit-probe.ts';
export { type BinningRecord, FitFailure, type FitRecord, type StopReason } from './fit-record.ts';
export { type FittedModel, predictLinear, predictMean } from './fitted-model.ts';
export { type LinearIntervals, linearIntervals, simultaneousIntervals } from './intervals.ts';
export { fromModelBytes, toModelBytes } from './model-bytes.ts';
export { fromModelFile, type ModelFile, toModelFile } from './model-file.ts';
export {
  type Curve,
  curveOf,
  evaluateCurve,
  evaluateSurface,
  levelEffect,
  type Surface,
  sliceSurfaceInto,
  surfaceOf,
} from './surface.ts';
export { type ByLevel, type Margin, smoothByFactor, type Term, termCovariates, termLabel } from './terms.ts';
