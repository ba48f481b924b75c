import { type AirBalls, selectAirBalls } from '../../src/chances/air/air-balls.ts';
import { airReachFits } from '../../src/chances/air/air-reach.ts';
import { collectAirRows } from '../../src/chances/air/air-rows.ts';
import { carryFits, projectFlights } from '../../src/chances/air/carry.ts';
import { keptFit } from '../../src/chances/air/kept-model.ts';
import { type InfieldModels, infieldFits } from '../../src/chances/grounder-models.ts';
import { type Grounders, selectGrounders } from '../../src/chances/grounders.ts';
import type { DemoLeague } from '../../src/league/demo-league.ts';
import { simulateLeague } from '../../src/league/simulate-league.ts';
import { fitHere } from '../../src/models/fitting.ts';
import { type PlanData, type PlanGrounds, preparePlans } from '../../src/plans/prepare-plans.ts';
import { SILENT } from '../../src/progress.ts';

export interface PlannedLeague {
  readonly league: DemoLeague;
  readonly data: PlanData;
  readonly grounds: PlanGrounds;
}

/** A demo league with everything that plans rest on, and none of the models that they do not ask. */
export function plannedLeague(seasons: number, teams: number, seed: number, ballsPerSeason = 25_000): PlannedLeague {
  const league = simulateLeague({ seasons, teams, seed, ballsPerSeason });
  const data: PlanData = {
    table: league.plays,
    grounders: infieldModelsOf(selectGrounders(league.plays)),
    air: airModelsOf(selectAirBalls(league.plays)),
    runs: { mode: 'flat' },
  };
  return { league, data, grounds: preparePlans(data) };
}

export function infieldModelsOf(grounders: Grounders): InfieldModels {
  return fitHere(infieldFits(grounders), SILENT);
}

function airModelsOf(balls: AirBalls): PlanData['air'] {
  const carry = fitHere(carryFits(balls), SILENT);
  const rows = collectAirRows(balls, projectFlights(balls, carry));
  return { carry, reach: fitHere(airReachFits(rows), SILENT), kept: fitHere(keptFit(rows.kept), SILENT) };
}

/** Ids of the batters of whom at least `fewest` balls were seen, in the order of the table's people. */
export function battersSeen({ ofBatter, data: { table } }: PlanGrounds, fewest: number): string[] {
  return table.people.filter((_, person) => (ofBatter.get(person)?.length ?? 0) >= fewest);
}
