import type { FittedModel } from '../models/fitted-model.ts';
import { type Fitting, together } from '../models/fitting.ts';
import type { AirBalls } from './air/air-balls.ts';
import type { AirModels } from './air/air-models.ts';
import { collectAirRows } from './air/air-rows.ts';
import { projectFlights } from './air/carry.ts';
import { collectChanceRows, reachData } from './chance-rows.ts';
import type { FitChoices } from './fit-chance.ts';
import type { InfieldModels } from './grounder-models.ts';
import type { Grounders } from './grounders.ts';
import { fitAmongMen, menAt } from './man-term.ts';

/**
 * Reach of positions 1 to 6 once more, each among its men: the chance that an average man gathers, as ratings ask
 * (docs/decisions/049-reach-among-men.md).
 */
export function reachAmongMen(
  grounders: Grounders,
  { travel, positions }: InfieldModels,
  choices: FitChoices = {},
): Fitting<FittedModel[]> {
  const all = collectChanceRows(grounders, travel);
  return together(
    positions.map(({ reach }, k) => {
      const rows = reachData(all[k]);
      return fitAmongMen(reach, rows, menAt(grounders, k + 1, rows.at), choices);
    }),
  );
}

/** The same in the air, of positions 1 to 9. */
export function airReachAmongMen(
  balls: AirBalls,
  { carry, reach }: Pick<AirModels, 'carry' | 'reach'>,
  choices: FitChoices = {},
): Fitting<FittedModel[]> {
  const rows = collectAirRows(balls, projectFlights(balls, carry)).reach;
  return together(reach.map((own, k) => fitAmongMen(own, rows[k], menAt(balls, k + 1, rows[k].at), choices)));
}
