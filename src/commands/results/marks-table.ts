import type { ColumnTable } from '../../book/store.ts';
import { flagText, GRADES } from '../../chances/grades.ts';
import { BALL_KINDS } from '../../diamond/play-codes.ts';
import type { ClassLedger } from '../../ledger/class-ledger.ts';
import { textColumn } from './columns.ts';
import { joinColumns } from './join-columns.ts';

/** One row a play, class after class. */
export function marksTable(ledgers: readonly ClassLedger[]): ColumnTable {
  return joinColumns(ledgers, (ledger) => {
    const { table, row, season, closed, count } = ledger.plays;
    const textOf = (of: (at: number) => string | null) => textColumn(count, of);
    return {
      rowCount: count,
      columns: [
        { name: 'play_id', type: 'text', values: textOf((at) => table.playId[row[at]]) },
        { name: 'season', type: 'integer', values: season },
        { name: 'ball_kind', type: 'text', values: textOf((at) => BALL_KINDS[table.ballKind[row[at]]]) },
        { name: 'opening', type: 'double', values: ledger.opening },
        { name: 'opening_direct', type: 'double', values: ledger.openingDirect },
        { name: 'set', type: 'double', values: ledger.set },
        { name: 'gathered', type: 'double', values: ledger.gathered },
        { name: 'closed', type: 'double', values: Float64Array.from(closed) },
        { name: 'stake_runs', type: 'double', values: ledger.stakeRuns },
        { name: 'grade', type: 'text', values: textOf((at) => GRADES[ledger.grade[at]]) },
        { name: 'flags', type: 'text', values: textOf((at) => flagText(ledger.flags[at])) },
      ],
    };
  });
}
