import type { ColumnTable } from '../../book/store.ts';
import { GRADES } from '../../chances/grades.ts';
import { POSITION_COUNT } from '../../diamond/play-codes.ts';
import type { ClassLedger } from '../../ledger/class-ledger.ts';
import { ENTRY_KINDS } from '../../ledger/entry-kinds.ts';
import { joinColumns } from './join-columns.ts';
import { personId } from './person-id.ts';

/** One row an entry, class after class. */
export function entriesTable(ledgers: readonly ClassLedger[]): ColumnTable {
  return joinColumns(ledgers, ({ entries, plays, grade }) => {
    const { table, row, season } = plays;
    const { count } = entries;
    const at = entries.play.subarray(0, count);
    const position = entries.position.subarray(0, count);
    return {
      rowCount: count,
      columns: [
        { name: 'play_id', type: 'text', values: Array.from(at, (p) => table.playId[row[p]]) },
        { name: 'season', type: 'integer', values: Int32Array.from(at, (p) => season[p]) },
        {
          name: 'fielder_id',
          type: 'text',
          values: Array.from(at, (p, e) => personId(table, table.fielder[row[p] * POSITION_COUNT + position[e] - 1])),
        },
        { name: 'position', type: 'integer', values: Int32Array.from(position) },
        { name: 'team', type: 'text', values: Array.from(at, (p) => table.teams[table.fieldingTeam[row[p]]]) },
        {
          name: 'kind',
          type: 'text',
          values: Array.from(entries.kind.subarray(0, count), (kind) => ENTRY_KINDS[kind]),
        },
        { name: 'outs', type: 'double', values: entries.outs.slice(0, count) },
        { name: 'runs', type: 'double', values: entries.runs.slice(0, count) },
        { name: 'grade', type: 'text', values: Array.from(at, (p) => GRADES[grade[p]]) },
      ],
    };
  });
}
