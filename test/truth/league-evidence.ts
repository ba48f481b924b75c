import { AirChances } from '../../src/chances/air/air-chances.ts';
import { GrounderChances } from '../../src/chances/grounder-chances.ts';
import { bookFits, scoreBook, selectPlays } from '../../src/commands/score-book.ts';
import type { DemoLeague, LeagueOptions } from '../../src/league/demo-league.ts';
import { simulateLeague } from '../../src/league/simulate-league.ts';
import { type FielderTotals, sumFielders } from '../../src/ledger/season-totals.ts';
import { fitHere } from '../../src/models/fitting.ts';
import { SILENT } from '../../src/progress.ts';
import { HANDS } from '../../src/ratings/directions.ts';
import { collectFinishRows } from '../../src/ratings/finish-rows.ts';
import { type ChanceNature, chanceNature } from '../../src/ratings/playing-record.ts';
import { collectReachRows } from '../../src/ratings/reach-rows.ts';
import type { SkillRows } from '../../src/ratings/skill-rows.ts';
import { DEMO_DRAWS } from '../helpers/scored-league.ts';

/** What the ratings of a demo league rest on, by models that have not seen its last season. */
export interface LeagueEvidence {
  readonly ground: SkillRows;
  readonly air: SkillRows;
  readonly finish: SkillRows;
  readonly totals: readonly FielderTotals[];
  readonly nature: ChanceNature;
  readonly lastSeason: number;
  readonly levels: DemoLeague['truth']['levels'];
  readonly born: readonly string[];
}

/**
 * Simulates a league, fits its models to all seasons but the last and takes the evidence of all seasons by them. A league of fewer
 * seasons is the beginning of the same league.
 */
export function leagueEvidence(options: LeagueOptions): LeagueEvidence {
  const league = simulateLeague(options);
  const before = simulateLeague({ ...options, seasons: options.seasons - 1 });
  const models = fitHere(bookFits(selectPlays(before.plays), 'flat'));
  const plays = selectPlays(league.plays);
  const { ledgers } = scoreBook(plays, models, 'flat', DEMO_DRAWS, SILENT);
  const hands = Uint8Array.from(league.people.throws, (hand) => HANDS.indexOf(hand as 'L'));
  return {
    ground: collectReachRows(plays.grounders, new GrounderChances(plays.grounders, models.grounders!), hands),
    air: collectReachRows(plays.air, new AirChances(plays.air, models.air!), hands),
    finish: collectFinishRows(ledgers[0]!),
    totals: sumFielders(ledgers),
    nature: chanceNature(ledgers),
    lastSeason: league.plays.season[league.plays.count - 1]!,
    levels: league.truth.levels,
    born: league.people.born,
  };
}
