import { INCOMING_TABLES } from '../book/schema.ts';
import { quoteName } from '../book/sql-text.ts';
import type { Section } from './mapping.ts';
import { BAD, faultSql, VALUE } from './row-checks.ts';
import { SourceCells } from './source-cells.ts';
import type { SourceReader } from './source-sql.ts';
import { addDerived, targetsOf } from './target-sql.ts';

/**
 * The SELECT that turns a source into rows of its table: the columns of the contract in order and `fault`, in the order
 * of the file. A wide source gives as many rows in turn as it has rules.
 */
export function stagingSql(section: Section, reader: SourceReader, decimal: string, empty: readonly string[]): string {
  const { columns } = INCOMING_TABLES[section.table];
  const cells = new SourceCells(reader, decimal, empty);
  const rules = section.rows.map((rule) => {
    const targets = targetsOf(section, rule, cells);
    addDerived(section, targets);
    return targets;
  });
  const filled = columns.map(({ name }) => rules.some((targets) => targets.has(name)));
  const canBeBad = columns.map(({ name }) => rules.some((targets) => targets.get(name)?.bad !== undefined));
  const types = { text: 'VARCHAR', integer: 'INTEGER', double: 'DOUBLE', boolean: 'BOOLEAN', date: 'DATE' } as const;
  const spread = (parts: readonly string[]) =>
    parts.length === 1 && !section.wide ? parts[0]! : `unnest([${parts.join(', ')}])`;
  const middle = columns.flatMap(({ name, type }, index) => {
    const values = rules.map((targets) => `(${targets.get(name)?.value ?? 'NULL'})::${types[type]}`);
    const value = filled[index] ? spread(values) : values[0]!;
    const bads = rules.map((targets) => `(${targets.get(name)?.bad ?? 'NULL'})::VARCHAR`);
    return canBeBad[index]
      ? [`${value} AS ${VALUE(index)}`, `${spread(bads)} AS ${BAD(index)}`]
      : [`${value} AS ${VALUE(index)}`];
  });
  if (reader.broken !== undefined) middle.push('broken');
  const fault = faultSql(section, filled, canBeBad, reader.broken !== undefined);
  const at = (name: string) => columns.findIndex((column) => column.name === name);
  // A position at which the wide row has nothing gives no row.
  const nothing = ['fielder_id', 'start_x_ft', 'start_y_ft'].flatMap((name) => {
    const index = at(name);
    return index < 0 ? [] : [`${VALUE(index)} IS NULL`, ...(canBeBad[index] ? [`${BAD(index)} IS NULL`] : [])];
  });
  const judged = section.wide ? `CASE WHEN ${nothing.join(' AND ')} THEN 'nothing' ELSE ${fault} END` : fault;
  const selected = columns.map(({ name }, index) => `${VALUE(index)} AS ${quoteName(name)}`);
  return `SELECT ${selected.join(', ')}, ${judged} AS fault FROM (SELECT ${middle.join(', ')} FROM ${cells.from()})`;
}
