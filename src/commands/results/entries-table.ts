import type { ColumnTable } from '../../book/store.ts';
import { GRADES } from '../../chances/grades.ts';
import { POSITION_COUNT } from '../../diamond/play-codes.ts';
import type { ClassLedger } from '../../ledger/class-ledger.ts';
import { ENTRY_KINDS } from '../../ledger/entry-kinds.ts';
import { textColumn } from './columns.ts';
import { joinColumns } from './join-columns.ts';
import { personId } from './person-id.ts';

/** One row an entry, class after class. */
export function entriesTable(ledgers: readonly ClassLedger[]): ColumnTable {
  return joinColumns(ledgers, ({ entries, plays, grade }) => {
    const { table, row, season } = plays;
    const { count } = entries;
    const { play, position, kind } = entries;
    const textOf = (of: (p: number, e: number) => string | null) => textColumn(count, (e) => of(play[e], e));
    return {
      rowCount: count,
      columns: [
        { name: 'play_id', type: 'text', values: textOf((p) => table.playId[row[p]]) },
        { name: 'season', type: 'integer', values: play.slice(0, count).map((p) => season[p]) },
        {
          name: 'fielder_id',
          type: 'text',
          values: textOf((p, e) => personId(table, table.fielder[row[p] * POSITION_COUNT + position[e] - 1])),
        },
        { name: 'position', type: 'integer', values: new Int32Array(position.subarray(0, count)) },
        { name: 'team', type: 'text', values: textOf((p) => table.teams[table.fieldingTeam[row[p]]]) },
        {
          name: 'kind',
          type: 'text',
          values: textOf((_, e) => ENTRY_KINDS[kind[e]]),
        },
        { name: 'outs', type: 'double', values: entries.outs.slice(0, count) },
        { name: 'runs', type: 'double', values: entries.runs.slice(0, count) },
        { name: 'grade', type: 'text', values: textOf((p) => GRADES[grade[p]]) },
      ],
    };
  });
}
