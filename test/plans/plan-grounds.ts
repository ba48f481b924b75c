import { selectAirBalls } from '../../src/chances/air/air-balls.ts';
import { fitAirModels } from '../../src/chances/air/air-models.ts';
import { fitGrounderModels } from '../../src/chances/grounder-models.ts';
import { selectGrounders } from '../../src/chances/grounders.ts';
import type { DemoLeague } from '../../src/league/demo-league.ts';
import { simulateLeague } from '../../src/league/simulate-league.ts';
import { type PlanData, type PlanGrounds, preparePlans } from '../../src/plans/prepare-plans.ts';
import { SILENT } from '../../src/progress.ts';

export interface PlannedLeague {
  readonly league: DemoLeague;
  readonly data: PlanData;
  readonly grounds: PlanGrounds;
}

/** A demo league with everything that plans rest on. */
export function plannedLeague(seasons: number, teams: number, seed: number, ballsPerSeason = 25_000): PlannedLeague {
  const league = simulateLeague({ seasons, teams, seed, ballsPerSeason });
  const data: PlanData = {
    table: league.plays,
    grounders: fitGrounderModels(selectGrounders(league.plays), SILENT),
    air: fitAirModels(selectAirBalls(league.plays), SILENT),
    runs: { mode: 'flat' },
  };
  return { league, data, grounds: preparePlans(data) };
}

/** Ids of the batters of whom at least `fewest` balls were seen, in the order of the table's people. */
export function battersSeen({ ofBatter, data: { table } }: PlanGrounds, fewest: number): string[] {
  return table.people.filter((_, person) => (ofBatter.get(person)?.length ?? 0) >= fewest);
}
