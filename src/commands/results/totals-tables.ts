import type { ColumnTable } from '../../book/store.ts';
import { FULL, GRADES } from '../../chances/grades.ts';
import type { ClassLedger } from '../../ledger/class-ledger.ts';
import { ENTRY_KINDS } from '../../ledger/entry-kinds.ts';
import { type KindSums, netOf, sumFielders, sumTeams } from '../../ledger/season-totals.ts';
import type { RatedBook } from '../rate-book.ts';
import { addRatings } from './add-ratings.ts';
import { TableWriter } from './columns.ts';
import { addShares, shareOf } from './grade-shares.ts';
import { personId } from './person-id.ts';

/** Kinds that have columns of their own; entries of kind `whole` are in the net only. */
const COLUMN_KINDS = ['placement', 'reach', 'finish', 'turn', 'ground'] as const;
const PLACEMENT = ENTRY_KINDS.indexOf('placement');

/** One row a season, defender, position and club. */
export function fieldersTable(
  ledgers: readonly ClassLedger[],
  rated: RatedBook,
  nameOf: ReadonlyMap<string, string>,
): ColumnTable {
  const { table } = ledgers[0].plays;
  const rows = sumFielders(ledgers);
  const writer = new TableWriter(rows)
    .integer('season', ({ season }) => season)
    .text('fielder_id', ({ fielder }) => personId(table, fielder))
    .text('name', ({ fielder }) => nameOf.get(personId(table, fielder) ?? '') ?? null)
    .integer('position', ({ position }) => position)
    .text('team', ({ team }) => table.teams[team])
    .integer('plays', ({ plays }) => plays)
    .number('chances', ({ chances }) => chances)
    .number('share_full', ({ gradePlays }) => shareOf(gradePlays, FULL));
  addRatings(addSums(writer), rated);
  return addShares(writer, ['ground', 'whole'], ({ gradePlays }) => gradePlays).table();
}

/** One row a season and club. */
export function teamsTable(ledgers: readonly ClassLedger[]): ColumnTable {
  const { table } = ledgers[0].plays;
  const writer = new TableWriter(sumTeams(ledgers))
    .integer('season', ({ season }) => season)
    .text('team', ({ team }) => table.teams[team])
    .integer('plays', ({ plays }) => plays);
  addSums(writer)
    .integer('overshift_plays', ({ overshiftPlays }) => overshiftPlays)
    .number('placement_runs_in_overshift', ({ placementRunsInOvershift }) => placementRunsInOvershift)
    .number(
      'placement_runs_otherwise',
      ({ runs, placementRunsInOvershift }) => runs[PLACEMENT] - placementRunsInOvershift,
    );
  return addShares(writer, GRADES, ({ gradePlays }) => gradePlays).table();
}

/** Columns `<kind>_outs`, `net_outs` and the same in runs. */
function addSums<Row extends KindSums>(writer: TableWriter<Row>): TableWriter<Row> {
  for (const unit of ['outs', 'runs'] as const) {
    for (const kind of COLUMN_KINDS) writer.number(`${kind}_${unit}`, (row) => row[unit][ENTRY_KINDS.indexOf(kind)]);
    writer.number(`net_${unit}`, (row) => netOf(row[unit]));
  }
  return writer;
}
