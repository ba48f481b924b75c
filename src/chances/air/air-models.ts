import type { FittedModel } from '../../models/fitted-model.ts';
import type { Progress } from '../../progress.ts';
import type { FitChoices } from '../fit-chance.ts';
import type { AirBalls } from './air-balls.ts';
import { type AirDirectOpening, fitAirDirect } from './air-direct.ts';
import { fitAirReach } from './air-reach.ts';
import { collectAirRows } from './air-rows.ts';
import { type CarryModel, fitCarry, projectFlights } from './carry.ts';
import { type HopRates, measureHopRates } from './hop-outs.ts';
import { fitKept, type KeptModel } from './kept-model.ts';

/** Everything fitted that the marks of balls in the air rest on. */
export interface AirModels {
  readonly carry: CarryModel;
  /** Positions 1 to 9. */
  readonly reach: readonly FittedModel[];
  readonly kept: KeptModel;
  readonly hopRates: HopRates;
  readonly direct: readonly AirDirectOpening[];
}

/** Fits all models of balls in the air to a book's, of all seasons together. Throws FitFailure when one does not arrive. */
export function fitAirModels(balls: AirBalls, progress: Progress, choices: FitChoices = {}): AirModels {
  progress.stage('fitting the air', 11);
  const carry = fitCarry(balls, choices);
  const flights = projectFlights(balls, carry);
  progress.advance(1);
  const rows = collectAirRows(balls, flights);
  const reach = fitAirReach(rows, (position) => progress.advance(1 + position), choices);
  const kept = fitKept(rows.kept, choices);
  const direct = fitAirDirect(balls, flights, choices);
  progress.finish();
  return { carry, reach, kept, hopRates: measureHopRates(balls), direct };
}
