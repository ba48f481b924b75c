import type { Progress } from '../progress.ts';
import { type DirectOpening, fitDirectOpening } from './direct-opening.ts';
import { type FinishModel, fitFinish } from './finish-model.ts';
import type { FitChoices } from './fit-chance.ts';
import type { Grounders } from './grounders.ts';
import { fitPositionChances, type PositionChances } from './reach-model.ts';
import { fitTravelTime, type TravelModel } from './travel-time.ts';

/** Everything fitted that the marks of grounders rest on. */
export interface GrounderModels {
  readonly travel: TravelModel;
  /** Positions 1 to 6. */
  readonly positions: readonly PositionChances[];
  readonly finish: FinishModel;
  readonly direct: DirectOpening;
}

/** Fits all grounder models to a book's grounders, of all seasons together. Throws FitFailure when one does not arrive. */
export function fitGrounderModels(grounders: Grounders, progress: Progress, choices: FitChoices = {}): GrounderModels {
  progress.stage('fitting', 15);
  const travel = fitTravelTime(grounders, choices);
  progress.advance(1);
  const positions = fitPositionChances(grounders, travel, (done) => progress.advance(1 + done), choices);
  const finish = fitFinish(grounders, (done) => progress.advance(7 + done), choices);
  const direct = fitDirectOpening(grounders, choices);
  progress.finish();
  return { travel, positions, finish, direct };
}
