import type { Column, ColumnTable } from '../book/store.ts';
import { FULL, flagText, GRADES } from '../chances/grades.ts';
import { BALL_KINDS, POSITION_COUNT } from '../diamond/play-codes.ts';
import { ENTRY_KINDS } from '../ledger/entry-kinds.ts';
import type { GrounderLedger } from '../ledger/score-grounders.ts';
import { type FielderTotals, netOuts, sumFielders, sumTeams, type TeamTotals } from '../ledger/season-totals.ts';
import { FLAT_STAKE_RUNS } from '../ledger/stake.ts';

/** Kinds that have columns of their own in `fielders` and `teams`; entries of kind `whole` are in the net only. */
const COLUMN_KINDS = ['placement', 'reach', 'finish', 'turn', 'ground'] as const;

/** The result tables of the data contract that a grounder ledger fills. */
export function resultTables(ledger: GrounderLedger, nameOf: ReadonlyMap<string, string>): Record<string, ColumnTable> {
  return {
    marks: marksTable(ledger),
    entries: entriesTable(ledger),
    fielders: fieldersTable(ledger, sumFielders(ledger), nameOf),
    teams: teamsTable(ledger, sumTeams(ledger)),
    balance: balanceTable(ledger),
  };
}

function tableOf(rowCount: number, columns: Column[]): ColumnTable {
  return { rowCount, columns };
}

const text = (name: string, values: (string | null)[]): Column => ({ name, type: 'text', values });
const integers = (name: string, values: Int32Array): Column => ({ name, type: 'integer', values });
const doubles = (name: string, values: Float64Array): Column => ({ name, type: 'double', values });

function marksTable(ledger: GrounderLedger): ColumnTable {
  const { grounders } = ledger;
  const rows = Array.from(grounders.row);
  return tableOf(grounders.count, [
    text(
      'play_id',
      rows.map((row) => grounders.table.playId[row]),
    ),
    integers('season', grounders.season),
    text(
      'ball_kind',
      rows.map((row) => BALL_KINDS[grounders.table.ballKind[row]]),
    ),
    doubles('opening', ledger.opening),
    doubles('opening_direct', ledger.openingDirect),
    doubles('set', ledger.set),
    doubles('gathered', ledger.gathered),
    doubles('closed', Float64Array.from(grounders.closed)),
    doubles('stake_runs', new Float64Array(grounders.count).fill(FLAT_STAKE_RUNS)),
    text(
      'grade',
      Array.from(ledger.grade, (grade) => GRADES[grade]),
    ),
    text('flags', Array.from(ledger.flags, flagText)),
  ]);
}

function entriesTable(ledger: GrounderLedger): ColumnTable {
  const { entries, grounders } = ledger;
  const { table } = grounders;
  const { count } = entries;
  const plays = Array.from(entries.play.subarray(0, count));
  const outs = entries.outs.slice(0, count);
  return tableOf(count, [
    text(
      'play_id',
      plays.map((at) => table.playId[grounders.row[at]]),
    ),
    integers(
      'season',
      Int32Array.from(plays, (at) => grounders.season[at]),
    ),
    text(
      'fielder_id',
      plays.map((at, e) =>
        personId(ledger, table.fielder[grounders.row[at] * POSITION_COUNT + entries.position[e] - 1]),
      ),
    ),
    integers('position', Int32Array.from(entries.position.subarray(0, count))),
    text(
      'team',
      plays.map((at) => table.teams[table.fieldingTeam[grounders.row[at]]]),
    ),
    text(
      'kind',
      Array.from(entries.kind.subarray(0, count), (kind) => ENTRY_KINDS[kind]),
    ),
    doubles('outs', outs),
    doubles(
      'runs',
      outs.map((value) => value * FLAT_STAKE_RUNS),
    ),
  ]);
}

function personId(ledger: GrounderLedger, fielder: number): string | null {
  return fielder < 0 ? null : ledger.grounders.table.people[fielder];
}

/** Columns `<kind>_outs`, `net_outs` and the same in runs. */
function sumColumns(rows: readonly { readonly outs: Float64Array }[]): Column[] {
  const sums: [string, Float64Array][] = COLUMN_KINDS.map((kind) => [
    kind,
    Float64Array.from(rows, ({ outs }) => outs[ENTRY_KINDS.indexOf(kind)]),
  ]);
  sums.push(['net', Float64Array.from(rows, ({ outs }) => netOuts(outs))]);
  return [
    ...sums.map(([kind, outs]) => doubles(`${kind}_outs`, outs)),
    ...sums.map(([kind, outs]) =>
      doubles(
        `${kind}_runs`,
        outs.map((value) => value * FLAT_STAKE_RUNS),
      ),
    ),
  ];
}

function fieldersTable(
  ledger: GrounderLedger,
  rows: readonly FielderTotals[],
  nameOf: ReadonlyMap<string, string>,
): ColumnTable {
  const ids = rows.map(({ fielder }) => personId(ledger, fielder));
  return tableOf(rows.length, [
    integers(
      'season',
      Int32Array.from(rows, ({ season }) => season),
    ),
    text('fielder_id', ids),
    text(
      'name',
      ids.map((id) => (id === null ? null : (nameOf.get(id) ?? null))),
    ),
    integers(
      'position',
      Int32Array.from(rows, ({ position }) => position),
    ),
    text(
      'team',
      rows.map(({ team }) => ledger.grounders.table.teams[team]),
    ),
    integers(
      'plays',
      Int32Array.from(rows, ({ plays }) => plays),
    ),
    doubles(
      'chances',
      Float64Array.from(rows, ({ chances }) => chances),
    ),
    doubles(
      'share_full',
      Float64Array.from(rows, ({ fullPlays, plays }) => fullPlays / plays),
    ),
    ...sumColumns(rows),
  ]);
}

function teamsTable(ledger: GrounderLedger, rows: readonly TeamTotals[]): ColumnTable {
  const placement = (row: TeamTotals) => row.outs[ENTRY_KINDS.indexOf('placement')];
  return tableOf(rows.length, [
    integers(
      'season',
      Int32Array.from(rows, ({ season }) => season),
    ),
    text(
      'team',
      rows.map(({ team }) => ledger.grounders.table.teams[team]),
    ),
    integers(
      'plays',
      Int32Array.from(rows, ({ plays }) => plays),
    ),
    ...sumColumns(rows),
    integers(
      'overshift_plays',
      Int32Array.from(rows, ({ overshiftPlays }) => overshiftPlays),
    ),
    doubles(
      'placement_runs_in_overshift',
      Float64Array.from(rows, (row) => row.placementInOvershift * FLAT_STAKE_RUNS),
    ),
    doubles(
      'placement_runs_otherwise',
      Float64Array.from(rows, (row) => (placement(row) - row.placementInOvershift) * FLAT_STAKE_RUNS),
    ),
  ]);
}

interface BalanceRow {
  readonly season: number;
  readonly ballClass: string;
  readonly name: string;
  outs: number;
  readonly shift: number;
}

/** The balance sheet: sums of the marks by season and grade with their shifts, then sums of the entries by season and kind. */
function balanceTable(ledger: GrounderLedger): ColumnTable {
  const rows = [...markRows(ledger), ...kindRows(ledger)].sort((a, b) => a.season - b.season);
  return tableOf(rows.length, [
    integers(
      'season',
      Int32Array.from(rows, ({ season }) => season),
    ),
    text(
      'ball_class',
      rows.map(({ ballClass }) => ballClass),
    ),
    text(
      'mark_or_kind',
      rows.map(({ name }) => name),
    ),
    doubles(
      'total_outs',
      Float64Array.from(rows, ({ outs }) => outs),
    ),
    doubles(
      'total_runs',
      Float64Array.from(rows, ({ outs }) => outs * FLAT_STAKE_RUNS),
    ),
    doubles(
      'logit_shift',
      Float64Array.from(rows, ({ shift }) => shift),
    ),
  ]);
}

function markRows(ledger: GrounderLedger): BalanceRow[] {
  const { groups, groupOf } = ledger.balance;
  const rows = groups.map(({ season, grade, opening, set, gathered }) => {
    const row = (name: string, shift: number): BalanceRow => ({
      season,
      ballClass: `ground, ${GRADES[grade]}`,
      name,
      outs: 0,
      shift,
    });
    const marks = [row('opening', opening)];
    if (grade === FULL) marks.push(row('set', set));
    if (GRADES[grade] !== 'whole') marks.push(row('gathered', gathered));
    marks.push(row('closed', Number.NaN));
    return marks;
  });
  const columns: Record<string, ArrayLike<number>> = {
    opening: ledger.opening,
    set: ledger.set,
    gathered: ledger.gathered,
    closed: ledger.grounders.closed,
  };
  for (let at = 0; at < ledger.grounders.count; at += 1)
    for (const row of rows[groupOf[at]]) row.outs += columns[row.name][at];
  return rows.flat();
}

function kindRows(ledger: GrounderLedger): BalanceRow[] {
  const { entries, grounders } = ledger;
  const bySeason = new Map<number, Float64Array>();
  for (let e = 0; e < entries.count; e += 1) {
    const season = grounders.season[entries.play[e]];
    const sums = bySeason.get(season) ?? new Float64Array(ENTRY_KINDS.length);
    sums[entries.kind[e]] += entries.outs[e];
    bySeason.set(season, sums);
  }
  return [...bySeason].flatMap(([season, sums]) =>
    ENTRY_KINDS.map((name, kind) => ({
      season,
      ballClass: 'ground',
      name,
      outs: sums[kind],
      shift: Number.NaN,
    })).filter(({ name }) => name !== 'turn'),
  );
}
