import type { FittedModel } from '../../models/fitted-model.ts';
import { type Fitting, fitHere, together } from '../../models/fitting.ts';
import type { Progress } from '../../progress.ts';
import type { FitChoices } from '../fit-chance.ts';
import type { AirBalls } from './air-balls.ts';
import { type AirDirectOpening, airDirectFits } from './air-direct.ts';
import { airReachFits } from './air-reach.ts';
import { collectAirRows } from './air-rows.ts';
import { type CarryModel, carryFits, type Flights, projectFlights } from './carry.ts';
import { type HopRates, measureHopRates } from './hop-outs.ts';
import { type KeptModel, keptFit } from './kept-model.ts';

/** Everything fitted that the marks of balls in the air rest on. */
export interface AirModels {
  readonly carry: CarryModel;
  /** Positions 1 to 9. */
  readonly reach: readonly FittedModel[];
  readonly kept: KeptModel;
  readonly hopRates: HopRates;
  readonly direct: readonly AirDirectOpening[];
}

/** Every fit of them, in the order in which a build makes them. */
export function listAirFits({ carry, reach, kept, direct }: AirModels): FittedModel[] {
  return [
    ...(carry.fitted === null ? [] : [carry.fitted.distance, carry.fitted.hang]),
    ...reach,
    ...(kept.fitted === null ? [] : [kept.fitted]),
    ...direct.map(({ model }) => model),
  ];
}

/** All models of a book's balls in the air, of all seasons together: flights first, as everything else rests on them. */
export function* airFits(balls: AirBalls, choices: FitChoices = {}): Fitting<AirModels> {
  const carry = yield* carryFits(balls, choices);
  const flights = projectFlights(balls, carry);
  return { carry, ...(yield* airChanceFits(balls, flights, choices)), hopRates: measureHopRates(balls) };
}

/** What is fitted once the flights are known. */
export function* airChanceFits(
  balls: AirBalls,
  flights: Flights,
  choices: FitChoices = {},
): Fitting<Pick<AirModels, 'reach' | 'kept' | 'direct'>> {
  const rows = collectAirRows(balls, flights);
  const [reach, kept, direct] = yield* together([
    airReachFits(rows, choices),
    keptFit(rows.kept, choices),
    airDirectFits(balls, flights, choices),
  ]);
  return { reach, kept, direct };
}

/** Fits all models of balls in the air here, on one thread. Throws FitFailure when one does not arrive. */
export function fitAirModels(balls: AirBalls, progress: Progress, choices: FitChoices = {}): AirModels {
  return fitHere(airFits(balls, choices), progress);
}
