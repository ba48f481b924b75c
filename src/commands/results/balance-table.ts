import type { ColumnTable } from '../../book/store.ts';
import { FULL, GRADES, WHOLE } from '../../chances/grades.ts';
import { BALL_KINDS } from '../../diamond/play-codes.ts';
import type { ClassLedger } from '../../ledger/class-ledger.ts';
import { ENTRY_KINDS } from '../../ledger/entry-kinds.ts';
import type { TurnBalance } from '../../ledger/turn-entries.ts';
import { TableWriter } from './columns.ts';
import { addShares } from './grade-shares.ts';

interface BalanceRow {
  readonly season: number;
  readonly ballClass: string;
  readonly name: string;
  outs: number;
  runs: number;
  readonly shift: number;
  /** Plays that the sum is over. */
  plays: number;
  /** All plays of the row's season and ball kind by grade. */
  readonly kindPlays: Int32Array;
}

/** The balance sheet: sums of the marks by season, ball kind and grade with their shifts, and of the entries by season and kind. */
export function balanceTable(ledgers: readonly ClassLedger[], turns: readonly TurnBalance[]): ColumnTable {
  const grades = new KindGrades(ledgers);
  const rows = ledgers
    .flatMap((ledger) => [...markRows(ledger, grades), ...kindRows(ledger, grades)])
    .concat(turns.flatMap((turn) => turnRows(turn, grades)));
  const writer = new TableWriter(rows.sort((a, b) => a.season - b.season))
    .integer('season', ({ season }) => season)
    .text('ball_class', ({ ballClass }) => ballClass)
    .text('mark_or_kind', ({ name }) => name)
    .number('total_outs', ({ outs }) => outs)
    .number('total_runs', ({ runs }) => runs)
    .number('logit_shift', ({ shift }) => shift)
    .integer('plays', ({ plays }) => plays);
  return addShares(writer, GRADES, ({ kindPlays }) => kindPlays).table();
}

/** Plays by season, ball kind and grade. */
class KindGrades {
  private readonly counts = new Map<string, Int32Array>();

  constructor(ledgers: readonly ClassLedger[]) {
    for (const { season, kind, grade, plays } of ledgers.flatMap(({ balance }) => balance.groups)) {
      this.of(season, BALL_KINDS[kind])[grade] += plays;
    }
  }

  of(season: number, ballKind: string): Int32Array {
    const key = `${season} ${ballKind}`;
    let counts = this.counts.get(key);
    if (counts === undefined) {
      counts = new Int32Array(GRADES.length);
      this.counts.set(key, counts);
    }
    return counts;
  }
}

function markRows(ledger: ClassLedger, grades: KindGrades): BalanceRow[] {
  const { groups, groupOf } = ledger.balance;
  const rows = groups.map(({ season, kind, grade, plays, opening, set, gathered }) => {
    const ballClass = `${BALL_KINDS[kind]}, ${GRADES[grade]}`;
    const kindPlays = grades.of(season, BALL_KINDS[kind]);
    const row = (name: string, shift: number) => ({
      season,
      ballClass,
      name,
      outs: 0,
      runs: 0,
      shift,
      plays,
      kindPlays,
    });
    const marks = [row('opening', opening)];
    if (grade === FULL) marks.push(row('set', set));
    if (grade !== WHOLE) marks.push(row('gathered', gathered));
    marks.push(row('closed', Number.NaN));
    return marks;
  });
  const columns: Record<string, ArrayLike<number>> = {
    opening: ledger.opening,
    set: ledger.set,
    gathered: ledger.gathered,
    closed: ledger.plays.closed,
  };
  for (let at = 0; at < ledger.plays.count; at += 1) {
    for (const row of rows[groupOf[at]]) {
      row.outs += columns[row.name][at];
      row.runs += columns[row.name][at] * ledger.stakeRuns[at];
    }
  }
  return rows.flat();
}

function kindRows({ entries, plays }: ClassLedger, grades: KindGrades): BalanceRow[] {
  const rows = new Map<number, BalanceRow>();
  // Bits of the kinds that a play was counted for: its entries of one kind need not stand together.
  const counted = new Uint8Array(plays.count);
  for (let e = 0; e < entries.count; e += 1) {
    const at = entries.play[e];
    const season = plays.season[at];
    const ballKind = plays.table.ballKind[plays.row[at]];
    const key = (season * BALL_KINDS.length + ballKind) * ENTRY_KINDS.length + entries.kind[e];
    let row = rows.get(key);
    if (row === undefined) {
      const ballClass = BALL_KINDS[ballKind];
      const name = ENTRY_KINDS[entries.kind[e]];
      const kindPlays = grades.of(season, ballClass);
      row = { season, ballClass, name, outs: 0, runs: 0, shift: Number.NaN, plays: 0, kindPlays };
      rows.set(key, row);
    }
    const bit = 1 << entries.kind[e];
    if ((counted[at] & bit) === 0) row.plays += 1;
    counted[at] |= bit;
    row.outs += entries.outs[e];
    row.runs += entries.runs[e];
  }
  return [...rows.values()].sort(
    (a, b) =>
      a.ballClass.localeCompare(b.ballClass) ||
      ENTRY_KINDS.indexOf(a.name as never) - ENTRY_KINDS.indexOf(b.name as never),
  );
}

/** Shifts of the two chances of a turn; the outs are those that the plays with a possible second out brought. */
function turnRows({ season, plays, fedPlays, made, gathered, thrown }: TurnBalance, grades: KindGrades): BalanceRow[] {
  const row = (name: string, shift: number, of: number) => ({
    season,
    ballClass: 'ground, turn',
    name,
    outs: made,
    runs: Number.NaN,
    shift,
    plays: of,
    kindPlays: grades.of(season, 'ground'),
  });
  return [row('gathered', gathered, plays), row('thrown', thrown, fedPlays)];
}
