import { FULL } from '../../src/chances/grades.ts';
import type { GrounderModels } from '../../src/chances/grounder-models.ts';
import type { Grounders } from '../../src/chances/grounders.ts';
import { bookEvidence } from '../../src/commands/rate-book.ts';
import { bookFits, scoreBook, selectPlays } from '../../src/commands/score-book.ts';
import type { DemoLeague, LeagueOptions } from '../../src/league/demo-league.ts';
import { simulateLeague } from '../../src/league/simulate-league.ts';
import type { ClassLedger } from '../../src/ledger/class-ledger.ts';
import { type FielderTotals, sumFielders } from '../../src/ledger/season-totals.ts';
import { fitHere } from '../../src/models/fitting.ts';
import { SILENT } from '../../src/progress.ts';
import { HANDS } from '../../src/ratings/directions.ts';
import type { RatingEvidence } from '../../src/ratings/rate-seasons.ts';
import { DEMO_DRAWS } from '../helpers/scored-league.ts';

/** A demo league, scored, and what its ratings rest on. */
export interface LeagueEvidence {
  readonly league: DemoLeague;
  /** On the ground, in the air. */
  readonly ledgers: readonly ClassLedger[];
  readonly grounders: Grounders;
  readonly models: GrounderModels;
  readonly evidence: RatingEvidence;
  readonly totals: readonly FielderTotals[];
  readonly lastSeason: number;
}

/**
 * Simulates a league and scores all of it with models of all seasons but the last.
 */
export function leagueEvidence(options: LeagueOptions): LeagueEvidence {
  const league = simulateLeague(options);
  const lastSeason = league.plays.season[league.plays.count - 1]!;
  // Plays are in the order of seasons.
  const before = { ...league.plays, count: league.plays.season.indexOf(lastSeason) };
  const models = fitHere(bookFits(selectPlays(before), 'flat'));
  const plays = selectPlays(league.plays);
  const { ledgers } = scoreBook(plays, models, 'flat', DEMO_DRAWS, SILENT);
  const hands = Uint8Array.from(league.people.throws, (hand) => HANDS.indexOf(hand as 'L'));
  return {
    league,
    ledgers,
    grounders: plays.grounders,
    models: models.grounders!,
    evidence: bookEvidence(plays, models, ledgers, hands),
    totals: sumFielders(ledgers),
    lastSeason,
  };
}

/** Numbers of the fully recorded plays of a class in the wanted seasons. */
export function fullyRecorded({ plays, grade }: ClassLedger, wanted: (season: number) => boolean): number[] {
  return Array.from(grade.keys()).filter((at) => grade[at] === FULL && wanted(plays.season[at]!));
}
