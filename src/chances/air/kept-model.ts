import { BALL_KINDS } from '../../diamond/play-codes.ts';
import type { ModelData } from '../../models/fit-model.ts';
import type { FittedModel } from '../../models/fitted-model.ts';
import type { Fitting } from '../../models/fitting.ts';
import type { Term } from '../../models/terms.ts';
import { chanceFit, type FitChoices } from '../fit-chance.ts';

/** Whether a ball that a man gets his glove on in the air is kept: how far he was short of a usual run, and the ball's kind. */
export interface KeptModel {
  /** null where too few were dropped to learn from; `share` then serves for every ball. */
  readonly fitted: FittedModel | null;
  readonly share: number;
}

const KEPT_TERMS: readonly Term[] = [
  { kind: 'smooth', margin: { covariate: 'short', lo: -60, hi: 20, segments: 8 } },
  { kind: 'random', covariate: 'kind', levels: BALL_KINDS.length },
];
const FEWEST_DROPS = 20;
/** Catches that are kept, usual share from memory, and as how many balls it counts. */
const USUAL_SHARE = 0.99;
const USUAL_WEIGHT = 100;

/** `data` has a row for each ball that somebody caught, response 1, or dropped, 0. */
export function* keptFit(data: ModelData, choices: FitChoices = {}): Fitting<KeptModel> {
  const kept = Array.from(data.response).reduce((sum, y) => sum + y, 0);
  const share = (kept + USUAL_WEIGHT * USUAL_SHARE) / (data.count + USUAL_WEIGHT);
  const fewest = Math.min(kept, data.count - kept);
  if (fewest < FEWEST_DROPS) return { fitted: null, share };
  return { fitted: yield* chanceFit('air kept', KEPT_TERMS, () => data, choices), share };
}
