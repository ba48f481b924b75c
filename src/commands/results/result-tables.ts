import type { ColumnTable } from '../../book/store.ts';
import type { PlayTable } from '../../chances/play-table.ts';
import type { RunValues } from '../../ledger/runs/run-values.ts';
import type { RatedBook } from '../rate-book.ts';
import type { ScoredBook } from '../score-book.ts';
import { alignmentsTable } from './alignments-table.ts';
import { balanceTable } from './balance-table.ts';
import { entriesTable } from './entries-table.ts';
import { marksTable } from './marks-table.ts';
import { nextSeasonTable } from './next-season-table.ts';
import { ratingsTable } from './ratings-table.ts';
import { runTableTable, runValuesTable } from './run-tables.ts';
import { teamPlacementTable } from './team-placement-table.ts';
import { fieldersTable, teamsTable } from './totals-tables.ts';

/** The result tables of the data contract that a build fills. `ledgers` has one of each class of balls, at least one. */
export function resultTables(
  table: PlayTable,
  values: RunValues,
  { ledgers, turns }: ScoredBook,
  rated: RatedBook,
  nameOf: ReadonlyMap<string, string>,
): Record<string, ColumnTable> {
  return {
    marks: marksTable(ledgers),
    entries: entriesTable(ledgers),
    fielders: fieldersTable(ledgers, rated, nameOf),
    teams: teamsTable(ledgers),
    alignments: alignmentsTable(table),
    balance: balanceTable(ledgers, turns),
    run_table: runTableTable(values),
    run_values: runValuesTable(values),
    ratings: ratingsTable(table, rated),
    team_placement: teamPlacementTable(table, rated.teamPlacement),
    next_season: nextSeasonTable(table, rated),
  };
}
