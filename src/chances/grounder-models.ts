import type { FittedModel } from '../models/fitted-model.ts';
import { type Fitting, fitHere, together } from '../models/fitting.ts';
import type { Progress } from '../progress.ts';
import { type DirectOpening, directFits } from './direct-opening.ts';
import { type FinishModel, finishFits } from './finish-model.ts';
import type { FitChoices } from './fit-chance.ts';
import type { Grounders } from './grounders.ts';
import { type PositionChances, positionFits } from './reach-model.ts';
import { type TravelModel, travelFit } from './travel-time.ts';

/** Everything fitted that the marks of grounders rest on. */
export interface GrounderModels {
  readonly travel: TravelModel;
  /** Positions 1 to 6. */
  readonly positions: readonly PositionChances[];
  readonly finish: FinishModel;
  readonly direct: DirectOpening;
}

/** The models that a set mark on the ground rests on. */
export type InfieldModels = Pick<GrounderModels, 'travel' | 'positions'>;

/** Every fit of them, in the order in which a build makes them. */
export function listGrounderFits({ travel, positions, finish, direct }: GrounderModels): FittedModel[] {
  return [
    ...(travel.fitted === null ? [] : [travel.fitted]),
    ...positions.flatMap(({ reach, promise }) => [reach, promise]),
    ...finish.infield.flat(),
    ...direct,
  ];
}

/** All grounder models of a book's grounders, of all seasons together: travel time first, as arrivals rest on it. */
export function* grounderFits(grounders: Grounders, choices: FitChoices = {}): Fitting<GrounderModels> {
  const [{ travel, positions }, finish, direct] = yield* together([
    infieldFits(grounders, choices),
    finishFits(grounders, choices),
    directFits(grounders, choices),
  ]);
  return { travel, positions, finish, direct };
}

export function* infieldFits(grounders: Grounders, choices: FitChoices = {}): Fitting<InfieldModels> {
  const travel = yield* travelFit(grounders, choices);
  return { travel, positions: yield* positionFits(grounders, travel, choices) };
}

/** Fits all grounder models here, on one thread. Throws FitFailure when one does not arrive. */
export function fitGrounderModels(grounders: Grounders, progress: Progress, choices: FitChoices = {}): GrounderModels {
  return fitHere(grounderFits(grounders, choices), progress);
}
