import { type AirBalls, selectAirBalls } from '../../src/chances/air/air-balls.ts';
import { fitAirReach } from '../../src/chances/air/air-reach.ts';
import { collectAirRows } from '../../src/chances/air/air-rows.ts';
import { fitCarry, projectFlights } from '../../src/chances/air/carry.ts';
import { fitKept } from '../../src/chances/air/kept-model.ts';
import { type Grounders, selectGrounders } from '../../src/chances/grounders.ts';
import type { InfieldModels } from '../../src/chances/infield-chances.ts';
import { fitPositionChances } from '../../src/chances/reach-model.ts';
import { fitTravelTime } from '../../src/chances/travel-time.ts';
import type { DemoLeague } from '../../src/league/demo-league.ts';
import { simulateLeague } from '../../src/league/simulate-league.ts';
import { type PlanData, type PlanGrounds, preparePlans } from '../../src/plans/prepare-plans.ts';

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
  const travel = fitTravelTime(grounders);
  return { travel, positions: fitPositionChances(grounders, travel, () => {}) };
}

function airModelsOf(balls: AirBalls): PlanData['air'] {
  const carry = fitCarry(balls);
  const rows = collectAirRows(balls, projectFlights(balls, carry));
  return { carry, reach: fitAirReach(rows, () => {}), kept: fitKept(rows.kept) };
}

/** Ids of the batters of whom at least `fewest` balls were seen, in the order of the table's people. */
export function battersSeen({ ofBatter, data: { table } }: PlanGrounds, fewest: number): string[] {
  return table.people.filter((_, person) => (ofBatter.get(person)?.length ?? 0) >= fewest);
}
