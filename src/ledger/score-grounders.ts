import { predictDirectOpening } from '../chances/direct-opening.ts';
import type { DrawSettings } from '../chances/even-draws.ts';
import { finishChances } from '../chances/finish-model.ts';
import { GrounderChances, MOVABLE_ON_GROUNDERS } from '../chances/grounder-chances.ts';
import type { GrounderModels } from '../chances/grounder-models.ts';
import type { Grounders } from '../chances/grounders.ts';
import type { Progress } from '../progress.ts';
import type { ClassLedger } from './class-ledger.ts';
import { scorePlays } from './score-plays.ts';
import { FLAT_STAKE_RUNS } from './stake.ts';

/** Scores every grounder with its models; `stakeRuns` has the length of the grounders, flat unless given. */
export function scoreGrounders(
  grounders: Grounders,
  models: GrounderModels,
  settings: DrawSettings,
  progress: Progress,
  stakeRuns: Float64Array = new Float64Array(grounders.count).fill(FLAT_STAKE_RUNS),
): ClassLedger {
  const scoring = {
    chances: new GrounderChances(grounders, models),
    movable: MOVABLE_ON_GROUNDERS,
    stakeRuns,
    forecast: {
      direct: predictDirectOpening(models.direct, grounders),
      finish: finishChances(models.finish, grounders),
    },
  };
  return scorePlays(grounders, scoring, settings, progress);
}
