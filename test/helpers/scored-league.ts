import type { DrawSettings } from '../../src/chances/even-draws.ts';
import { fitGrounderModels, type GrounderModels } from '../../src/chances/grounder-models.ts';
import { type Grounders, selectGrounders } from '../../src/chances/grounders.ts';
import type { DemoLeague, LeagueOptions } from '../../src/league/demo-league.ts';
import { simulateLeague } from '../../src/league/simulate-league.ts';
import type { ClassLedger } from '../../src/ledger/class-ledger.ts';
import { scoreGrounders } from '../../src/ledger/score-grounders.ts';
import { SILENT } from '../../src/progress.ts';

/** The settings with which `leatherbook demo` builds. */
export const DEMO_DRAWS: DrawSettings = { draws: 24, window: 'rolling', seed: 1 };

/** A demo league, its truth, and everything that the method made of its tables. */
export interface ScoredLeague {
  readonly league: DemoLeague;
  readonly grounders: Grounders;
  readonly models: GrounderModels;
  readonly ledger: ClassLedger;
}

/**
 * Simulates a league and scores its grounders; `models` are fitted to it unless they are given. The whole of the default
 * league takes some 20 s, so a test file does it once.
 */
export function scoreLeague(options: LeagueOptions, given?: GrounderModels): ScoredLeague {
  const league = simulateLeague(options);
  const grounders = selectGrounders(league.plays);
  const models = given ?? fitGrounderModels(grounders, SILENT);
  return { league, grounders, models, ledger: scoreGrounders(grounders, models, DEMO_DRAWS, SILENT) };
}
