import type { PeopleFacts } from '../../book/read-people.ts';
import type { ColumnTable } from '../../book/store.ts';
import type { PlayTable } from '../../chances/play-table.ts';
import type { RunValues } from '../../ledger/runs/run-values.ts';
import { sumFielders } from '../../ledger/season-totals.ts';
import type { RatedBook } from '../rate-book.ts';
import type { ScoredBook } from '../score-book.ts';
import { alignmentsTable } from './alignments-table.ts';
import { balanceTable } from './balance-table.ts';
import { entriesTable } from './entries-table.ts';
import { gameChancesTable } from './game-chances-table.ts';
import { type BootstrapSettings, sumGames } from './game-sums.ts';
import { marksTable } from './marks-table.ts';
import { nextSeasonTable } from './next-season-table.ts';
import { ratesTable } from './rates-table.ts';
import { ratingsTable } from './ratings-table.ts';
import { reliabilityTables } from './reliability-tables.ts';
import { roomTable } from './room-table.ts';
import { runTableTable, runValuesTable } from './run-tables.ts';
import { teamPlacementTable } from './team-placement-table.ts';
import { careersTable, fieldersTable, teamsTable } from './totals-tables.ts';

/** The result tables that a build fills. `ledgers` has one of each class of balls, at least one. */
export function resultTables(
  table: PlayTable,
  values: RunValues,
  { ledgers, turns }: ScoredBook,
  rated: RatedBook,
  { names, fieldTime }: PeopleFacts,
  bootstrap: BootstrapSettings,
): Record<string, ColumnTable> {
  const sums = sumGames(ledgers, bootstrap.replicates, bootstrap.seed);
  const men = sumFielders(ledgers);
  return {
    marks: marksTable(ledgers),
    entries: entriesTable(ledgers),
    fielders: fieldersTable(men, sums, rated, names),
    careers: careersTable(men, sums, rated, names),
    teams: teamsTable(ledgers, sums),
    rates: ratesTable(men, sums, names, fieldTime),
    ...reliabilityTables(sums),
    room_to_gain: roomTable(sums, names),
    game_chances: gameChancesTable(sums),
    alignments: alignmentsTable(table),
    balance: balanceTable(ledgers, turns),
    run_table: runTableTable(values),
    run_values: runValuesTable(values),
    ratings: ratingsTable(table, rated),
    team_placement: teamPlacementTable(table, rated.teamPlacement),
    next_season: nextSeasonTable(table, rated),
  };
}
