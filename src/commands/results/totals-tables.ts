import type { ColumnTable } from '../../book/store.ts';
import { FULL, GRADES } from '../../chances/grades.ts';
import type { PlayTable } from '../../chances/play-table.ts';
import type { ClassLedger } from '../../ledger/class-ledger.ts';
import { ENTRY_KINDS } from '../../ledger/entry-kinds.ts';
import { type FielderTotals, type KindSums, netOf, sumTeams } from '../../ledger/season-totals.ts';
import type { TotalErrors } from '../../ratings/total-errors.ts';
import type { RatedBook } from '../rate-book.ts';
import { addRatings } from './add-ratings.ts';
import { TableWriter } from './columns.ts';
import type { GameSums } from './game-sums.ts';
import { addShares, shareOf } from './grade-shares.ts';
import { personId } from './person-id.ts';
import { careerKey, clubKey, seasonKey } from './row-keys.ts';

/** Kinds that have columns of their own; entries of kind `whole` are in the net only. */
const COLUMN_KINDS = ['placement', 'reach', 'finish', 'turn', 'ground'] as const;
const PLACEMENT = ENTRY_KINDS.indexOf('placement');

/** One row a season, defender, position and club. */
export function fieldersTable(
  rows: readonly FielderTotals[],
  sums: GameSums,
  rated: RatedBook,
  nameOf: ReadonlyMap<string, string>,
): ColumnTable {
  const errorsOf = (row: FielderTotals) => sums.errors.season.get(seasonKey(row));
  return menTable(
    rows.map((row) => ({ ...row, ratedSeason: row.season, errors: errorsOf(row) })),
    sums.table,
    rated,
    nameOf,
  );
}

/** The same, one row a defender and position; season and team are empty, the ratings those of his last season there. */
export function careersTable(
  rows: readonly FielderTotals[],
  sums: GameSums,
  rated: RatedBook,
  nameOf: ReadonlyMap<string, string>,
): ColumnTable {
  const careers = addCareers(rows).map(({ season, ...career }) => ({
    ...career,
    season: null,
    team: null,
    ratedSeason: season,
    errors: sums.errors.career.get(careerKey(career)),
  }));
  return menTable(careers, sums.table, rated, nameOf);
}

/** Sums over seasons and clubs; season is the last. Men whom nobody knows have no career. */
function addCareers(rows: readonly FielderTotals[]): FielderTotals[] {
  const careers = new Map<string, FielderTotals>();
  for (const row of rows) {
    if (row.fielder < 0) continue;
    const key = careerKey(row);
    const before = careers.get(key);
    const add = <Column extends Float64Array | Int32Array>(a: Column | undefined, b: Column): Column =>
      b.map((value, k) => value + (a?.[k] ?? 0)) as Column;
    careers.set(key, {
      ...row,
      season: Math.max(row.season, before?.season ?? row.season),
      plays: row.plays + (before?.plays ?? 0),
      chances: row.chances + (before?.chances ?? 0),
      outs: add(before?.outs, row.outs),
      runs: add(before?.runs, row.runs),
      gradePlays: add(before?.gradePlays, row.gradePlays),
    });
  }
  return [...careers.values()];
}

interface ManRow extends Omit<FielderTotals, 'season' | 'team'> {
  readonly season: number | null;
  readonly team: number | null;
  /** The season whose ratings are his. */
  readonly ratedSeason: number;
  readonly errors: TotalErrors | undefined;
}

function menTable(
  rows: readonly ManRow[],
  table: PlayTable,
  rated: RatedBook,
  nameOf: ReadonlyMap<string, string>,
): ColumnTable {
  const writer = new TableWriter(rows)
    .integerOrEmpty('season', ({ season }) => season)
    .text('fielder_id', ({ fielder }) => personId(table, fielder))
    .text('name', ({ fielder }) => nameOf.get(personId(table, fielder) ?? '') ?? null)
    .integer('position', ({ position }) => position)
    .text('team', ({ team }) => (team === null ? null : table.teams[team]))
    .integer('plays', ({ plays }) => plays)
    .number('chances', ({ chances }) => chances)
    .number('share_full', ({ gradePlays }) => shareOf(gradePlays, FULL));
  addRatings(
    addErrors(addSums(writer), ({ errors }) => errors),
    rated,
  );
  return addShares(writer, ['ground', 'whole'], ({ gradePlays }) => gradePlays).table();
}

/** One row a season and club. */
export function teamsTable(ledgers: readonly ClassLedger[], { errors }: GameSums): ColumnTable {
  const { table } = ledgers[0].plays;
  const writer = new TableWriter(sumTeams(ledgers))
    .integer('season', ({ season }) => season)
    .text('team', ({ team }) => table.teams[team])
    .integer('plays', ({ plays }) => plays);
  addErrors(addSums(writer), (row) => errors.club.get(clubKey(row)))
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

/** Columns `<kind>_runs_se`. */
function addErrors<Row>(writer: TableWriter<Row>, errorsOf: (row: Row) => TotalErrors | undefined): TableWriter<Row> {
  for (const kind of COLUMN_KINDS) {
    writer.number(`${kind}_runs_se`, (row) => errorsOf(row)?.runs[ENTRY_KINDS.indexOf(kind)] ?? Number.NaN);
  }
  return writer.number('net_runs_se', (row) => errorsOf(row)?.net ?? Number.NaN);
}
