import { type Progress, SILENT } from '../progress.ts';
import type { ModelSpec } from './design.ts';
import { type FitSettings, fitModel, type ModelData } from './fit-model.ts';
import {
  type FittedMultinomial,
  fitMultinomial,
  type MultinomialData,
  type MultinomialSettings,
  type MultinomialSpec,
} from './fit-multinomial.ts';
import type { FittedModel } from './fitted-model.ts';

/** A model to fit, of one kind, with rows of some form. */
interface Task<Kind, Spec, Settings, Rows> {
  readonly kind: Kind;
  readonly spec: Spec;
  readonly settings: Settings;
  readonly data: Rows;
}

/** One model to fit. Its rows are only made when somebody is about to fit it. */
export type FitTask =
  | Task<'model', ModelSpec, FitSettings, () => ModelData>
  | Task<'multinomial', MultinomialSpec, MultinomialSettings, () => MultinomialData>;

/** A task with its rows made: plain data, which another thread can be handed. */
export type FitQuestion =
  | Task<'model', ModelSpec, FitSettings, ModelData>
  | Task<'multinomial', MultinomialSpec, MultinomialSettings, MultinomialData>;

/** What became of a task, by its kind. */
export type TaskFit = FittedModel | FittedMultinomial;

/** The specification of a fit of either kind. */
export function specOf(fit: TaskFit): ModelSpec | MultinomialSpec {
  return 'spec' in fit ? fit.spec : fit.design.spec;
}

/**
 * Work that needs fits on its way: it yields tasks that do not wait for each other, is handed their fits in the same order, and
 * returns what it made of them. Who fits, here or on other threads, is the caller's choice and changes no digit.
 */
export type Fitting<Result> = Generator<readonly FitTask[], Result, readonly TaskFit[]>;

/** A single model. */
export function* oneFit(spec: ModelSpec, settings: FitSettings, data: () => ModelData): Fitting<FittedModel> {
  const [fit] = yield [{ kind: 'model', spec, settings, data }];
  return fit as FittedModel;
}

/** A single multinomial logit. */
export function* oneMultinomialFit(
  spec: MultinomialSpec,
  settings: MultinomialSettings,
  data: () => MultinomialData,
): Fitting<FittedMultinomial> {
  const [fit] = yield [{ kind: 'multinomial', spec, settings, data }];
  return fit as FittedMultinomial;
}

/** Several at a time: the first tasks of all, then the second tasks of all that have any, and so on. */
export function* together<Results extends readonly unknown[]>(
  parts: readonly [...{ [K in keyof Results]: Fitting<Results[K]> }],
): Fitting<Results> {
  let steps = parts.map((part) => part.next());
  for (;;) {
    const tasks = steps.map((step) => (step.done === true ? [] : step.value));
    if (tasks.every((own) => own.length === 0)) break;
    const fits = yield tasks.flat();
    let at = 0;
    steps = steps.map((step, k) => {
      if (step.done === true) return step;
      const own = fits.slice(at, at + tasks[k].length);
      at += tasks[k].length;
      return parts[k].next(own);
    });
  }
  return steps.map((step) => step.value) as unknown as Results;
}

/** The task with its rows. */
export function withRows(task: FitTask): FitQuestion {
  return task.kind === 'model' ? { ...task, data: task.data() } : { ...task, data: task.data() };
}

/** Fits it. Throws what fitModel and fitMultinomial throw. */
export function fitTask(task: FitQuestion): TaskFit {
  return task.kind === 'model'
    ? fitModel(task.spec, task.data, task.settings)
    : fitMultinomial(task.spec, task.data, task.settings);
}

/** Does all of a fitting's tasks here, one after another. Throws FitFailure when one does not arrive. */
export function fitHere<Result>(fitting: Fitting<Result>, progress: Progress = SILENT): Result {
  let done = 0;
  let step = fitting.next();
  while (step.done !== true) {
    progress.stage('fitting', done + step.value.length);
    const fits = step.value.map((task) => {
      progress.advance(done);
      done += 1;
      return fitTask(withRows(task));
    });
    step = fitting.next(fits);
  }
  progress.finish();
  return step.value;
}
