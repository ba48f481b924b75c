import { INCOMING_TABLES, START_LIMITS } from '../book/schema.ts';
import { quoteText } from '../book/sql-text.ts';
import type { Section } from './mapping.ts';

/** Pairs of columns that are one spot: one without the other is no spot. */
export const PAIRS = ['landing', 'gather', 'start'] as const;

/** Between the parts of a fault as text; no cell of a sane file has it, and if one does only a message is cut. */
export const FAULT_MARK = '\u001f';

/** Names in SQL of the value of a column, by its place in the contract, and of the text that could not be used for it. */
export const VALUE = (index: number) => `v${index}`;
export const BAD = (index: number) => `b${index}`;
/** A measured time may lie a little before contact: clocks of suppliers jitter. It is kept as delivered. */
const JITTER_S = 0.1;
/** Dates outside these years are slips of the pen, and the engine's `infinity`. */
const DATES = "DATE '1850-01-01' AND DATE '2200-12-31'";

/** One branch of the fault: what, which column, and the value to show. */
function branch(condition: string, kind: string, index: number | string, value: string): string {
  return `WHEN ${condition} THEN '${kind}${FAULT_MARK}${index}${FAULT_MARK}' || coalesce(left(${value}, 200), '')`;
}

/** Checks of one row by itself, first fault first. The kinds are put in words by faults.ts. */
export function faultSql(
  section: Section,
  filled: readonly boolean[],
  canBeBad: readonly boolean[],
  broken: boolean,
): string {
  const { columns } = INCOMING_TABLES[section.table];
  const branches: string[] = [];
  if (broken) branches.push(`WHEN broken THEN 'broken${FAULT_MARK}${FAULT_MARK}'`);
  columns.forEach((column, index) => {
    const value = VALUE(index);
    if (canBeBad[index]) branches.push(branch(`${BAD(index)} IS NOT NULL`, 'bad', index, BAD(index)));
    if (column.required) branches.push(branch(`${value} IS NULL`, 'missing', index, "''"));
    if (!filled[index]) return;
    if (column.type === 'date') {
      branches.push(branch(`${value} NOT BETWEEN ${DATES}`, 'date', index, `${value}::VARCHAR`));
    } else if (column.min !== undefined && column.max !== undefined) {
      const min = column.min === 0 && column.name.endsWith('_time_s') ? -JITTER_S : column.min;
      const outside = `${value} NOT BETWEEN ${min} AND ${column.max}`;
      branches.push(branch(outside, 'range', index, `${value}::VARCHAR`));
    } else if (column.type === 'double') {
      branches.push(branch(`NOT isfinite(${value})`, 'range', index, `${value}::VARCHAR`));
    }
    if (column.words !== undefined) {
      branches.push(branch(`${value} NOT IN (${column.words.map(quoteText).join(', ')})`, 'word', index, value));
    }
  });
  const at = (name: string) => columns.findIndex((column) => column.name === name);
  const v = (name: string) => VALUE(at(name));
  for (const pair of PAIRS) {
    const [x, y] = [at(`${pair}_x_ft`), at(`${pair}_y_ft`)];
    if (x < 0 || !(filled[x] || filled[y])) continue;
    branches.push(branch(`(${VALUE(x)} IS NULL) <> (${VALUE(y)} IS NULL)`, 'half', x, "''"));
  }
  if (section.table === 'plays') {
    branches.push(
      branch(`${v('batting_team')} = ${v('fielding_team')}`, 'one_team', at('fielding_team'), v('fielding_team')),
      branch(
        `${v('outs_before')} + ${v('outs_made')} > 3`,
        'outs',
        at('outs_made'),
        `${v('outs_before')} || ' + ' || ${v('outs_made')}`,
      ),
      branch(`${v('result')} = 'out' AND ${v('outs_made')} = 0`, 'no_out', at('result'), "''"),
      branch(`${v('pitcher_id')} = ${v('batter_id')}`, 'own_pitch', at('pitcher_id'), v('pitcher_id')),
    );
  }
  if (section.table === 'starts' && filled[at('start_x_ft')]) {
    const far = `sqrt(${v('start_x_ft')} * ${v('start_x_ft')} + ${v('start_y_ft')} * ${v('start_y_ft')})`;
    branches.push(
      branch(`${far} > ${START_LIMITS.fromHomeFt}`, 'far', at('start_x_ft'), `round(${far})::INTEGER::VARCHAR`),
    );
  }
  return `CASE ${branches.join('\n ')} END`;
}
