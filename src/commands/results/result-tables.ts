import { setImmediate as otherWork } from 'node:timers/promises';
import type { PeopleFacts } from '../../book/read-people.ts';
import type { ColumnTable } from '../../book/store.ts';
import type { PlayTable } from '../../chances/play-table.ts';
import type { RunValues } from '../../ledger/runs/run-values.ts';
import type { FielderTotals } from '../../ledger/season-totals.ts';
import type { RatedBook } from '../rate-book.ts';
import type { ScoredBook } from '../score-book.ts';
import { alignmentsTable } from './alignments-table.ts';
import { balanceTable } from './balance-table.ts';
import { entriesTable } from './entries-table.ts';
import { gameChancesTable } from './game-chances-table.ts';
import type { GameSums } from './game-sums.ts';
import { marksTable } from './marks-table.ts';
import { nextSeasonTable } from './next-season-table.ts';
import { ratesTable } from './rates-table.ts';
import { ratingsTable } from './ratings-table.ts';
import { reliabilityTables } from './reliability-tables.ts';
import { roomTable } from './room-table.ts';
import { runTableTable, runValuesTable } from './run-tables.ts';
import { teamPlacementTable } from './team-placement-table.ts';
import { careersTable, fieldersTable, teamsTable } from './totals-tables.ts';

type Tables = Record<string, ColumnTable>;

/**
 * The tables of a scored book that need neither ratings nor standard errors. Between two of them whoever else is at work gets a
 * turn: threads that wait for their next task.
 */
export async function ledgerTables(
  table: PlayTable,
  values: RunValues,
  { ledgers, turns }: ScoredBook,
): Promise<Tables> {
  const makers: Record<string, () => ColumnTable> = {
    marks: () => marksTable(ledgers),
    entries: () => entriesTable(ledgers),
    alignments: () => alignmentsTable(table),
    balance: () => balanceTable(ledgers, turns),
    run_table: () => runTableTable(values),
    run_values: () => runValuesTable(values),
  };
  const tables: Tables = {};
  for (const [name, make] of Object.entries(makers)) {
    tables[name] = make();
    await otherWork();
  }
  return tables;
}

/** The tables that ratings and standard errors go into. */
export function estimateTables(
  { ledgers }: ScoredBook,
  men: readonly FielderTotals[],
  sums: GameSums,
  rated: RatedBook,
  { names, fieldTime }: PeopleFacts,
): Tables {
  const { table } = sums;
  return {
    fielders: fieldersTable(men, sums, rated, names),
    careers: careersTable(men, sums, rated, names),
    teams: teamsTable(ledgers, sums),
    rates: ratesTable(men, sums, names, fieldTime),
    ...reliabilityTables(sums),
    room_to_gain: roomTable(sums, names),
    game_chances: gameChancesTable(sums),
    ratings: ratingsTable(table, rated),
    team_placement: teamPlacementTable(table, rated.teamPlacement),
    next_season: nextSeasonTable(table, rated),
  };
}
