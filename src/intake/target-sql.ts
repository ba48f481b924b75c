import { INCOMING_TABLES, type IncomingColumn } from '../book/schema.ts';
import { quoteText } from '../book/sql-text.ts';
import { needsOf } from './expression.ts';
import { expressionSql, numberSql } from './expression-sql.ts';
import { frameSql } from './frames.ts';
import type { ColumnRule, RowRule, Section } from './mapping.ts';
import type { SourceCells } from './source-cells.ts';
import { UNITS } from './units.ts';

/** SQL of a target: its value, and the text that could not be used for it (NULL when all is well). */
export interface TargetSql {
  readonly value: string;
  readonly bad: string | undefined;
}

function castSql(column: IncomingColumn, cells: SourceCells, from: string, place: string): TargetSql {
  const text = column.type === 'double' || column.type === 'integer' ? '' : cells.text(from, place);
  switch (column.type) {
    case 'text': {
      // A runner may be a person or just true; other programs write True.
      if (!column.name.startsWith('runner_on_')) return { value: text, bad: undefined };
      return {
        value: `CASE WHEN lower(${text}) IN ('true', 'false') THEN lower(${text}) ELSE ${text} END`,
        bad: undefined,
      };
    }
    case 'date':
      return withBad(text, `try_cast(${text} AS DATE)`);
    case 'boolean': {
      const words = `CASE lower(${text}) WHEN 'true' THEN true WHEN '1' THEN true WHEN 'yes' THEN true
        WHEN 'false' THEN false WHEN '0' THEN false WHEN 'no' THEN false END`;
      return withBad(text, words);
    }
    default:
      return numberTarget(column, cells.number(from, place), cells.rareText(from, place));
  }
}

function withBad(text: string, value: string): TargetSql {
  return { value, bad: `CASE WHEN ${value} IS NULL THEN ${text} END` };
}

/** A number, whole where the column is; `text` is what to show when it is none. */
function numberTarget(column: IncomingColumn, number: string, text: string): TargetSql {
  if (column.type === 'double') return { value: number, bad: `CASE WHEN ${number} IS NULL THEN ${text} END` };
  const whole = `CASE WHEN ${number} = floor(${number}) AND abs(${number}) < 2e9 THEN ${number}::INTEGER END`;
  return { value: whole, bad: `CASE WHEN ${whole} IS NULL THEN ${text} END` };
}

/** A text of SQL put where a column's text would be: constants, matches and value tables give words to be typed. */
function typedText(column: IncomingColumn, text: string, shown: string): TargetSql {
  if (column.type === 'text') return { value: text, bad: undefined };
  if (column.type === 'double' || column.type === 'integer') {
    return numberTarget(column, `try_cast(${text} AS DOUBLE)`, shown);
  }
  return {
    value: `try_cast(${text} AS ${column.type === 'date' ? 'DATE' : 'BOOLEAN'})`,
    bad: `CASE WHEN try_cast(${text} AS ${column.type === 'date' ? 'DATE' : 'BOOLEAN'}) IS NULL THEN ${shown} END`,
  };
}

type Resolve = (target: string) => string;

function ruleSql(
  rule: ColumnRule,
  column: IncomingColumn,
  cells: SourceCells,
  place: string,
  resolve: Resolve,
): TargetSql {
  switch (rule.kind) {
    case 'text':
      return castSql(column, cells, rule.from, place);
    case 'date': {
      const text = cells.text(rule.from, place);
      return withBad(text, `try_strptime(${text}, ${quoteText(rule.format)})::DATE`);
    }
    case 'words': {
      const text = cells.text(rule.from, place);
      const entries = [...rule.values].filter(([key]) => key.trim() !== '');
      const blank = rule.values.get('');
      const branches = entries
        .map(([key, value]) => `WHEN ${quoteText(key.trim())} THEN ${quoteText(value)}`)
        .join(' ');
      const looked = branches === '' ? 'NULL' : `CASE ${text} ${branches} END`;
      const word =
        blank === undefined ? looked : `CASE WHEN ${text} IS NULL THEN ${quoteText(blank)} ELSE ${looked} END`;
      const typed = typedText(column, `nullif(${word}, '')`, text);
      const unknown =
        entries.length === 0
          ? text
          : `CASE WHEN ${text} NOT IN (${entries.map(([key]) => quoteText(key.trim())).join(', ')}) THEN ${text} END`;
      return {
        value: typed.value,
        bad: typed.bad === undefined ? unknown : `coalesce(${unknown}, CASE WHEN ${word} <> '' THEN ${typed.bad} END)`,
      };
    }
    case 'pattern': {
      const text = cells.text(rule.from, place);
      const pattern = quoteText(rule.pattern);
      if (!rule.captures) return typedText(column, `regexp_matches(${text}, ${pattern})::VARCHAR`, text);
      return typedText(column, `nullif(regexp_extract(${text}, ${pattern}, 1), '')`, text);
    }
    case 'unit': {
      const text = cells.rareText(rule.from, place);
      const number = cells.number(rule.from, place);
      return {
        value: `${number} * ${numberSql(UNITS[rule.unit].factor)}`,
        bad: `CASE WHEN ${number} IS NULL THEN ${text} END`,
      };
    }
    case 'expression': {
      const sql = expressionSql(rule.expression, {
        number: (name) => cells.number(name, place),
        text: (name) => cells.text(name, place),
        target: resolve,
      });
      const scaled = rule.unit === undefined ? sql : `(${sql} * ${numberSql(UNITS[rule.unit].factor)})`;
      const faults = [...needsOf(rule.expression).numbers].map((name) => {
        const text = cells.rareText(name, place);
        return `WHEN ${cells.number(name, place)} IS NULL AND ${text} IS NOT NULL THEN ${text}`;
      });
      const target = numberTarget(column, scaled, `${scaled}::VARCHAR`);
      if (column.type === 'integer')
        faults.push(`WHEN ${scaled} IS NOT NULL AND ${target.value} IS NULL THEN ${scaled}::VARCHAR`);
      return { value: target.value, bad: faults.length === 0 ? undefined : `CASE ${faults.join(' ')} END` };
    }
    case 'constant':
      return typedText(column, quoteText(rule.value), quoteText(rule.value));
    case 'join': {
      const texts = rule.from.map((name) => cells.text(name, place));
      const joined = texts.join(` || ${quoteText(rule.separator)} || `);
      return typedText(column, joined, joined);
    }
  }
}

/** Every target of one rule as SQL over the source cells; a column that nothing fills is absent. */
export function targetsOf(section: Section, rule: RowRule, cells: SourceCells): Map<string, TargetSql> {
  const { columns } = INCOMING_TABLES[section.table];
  const column = (name: string) => columns.find((candidate) => candidate.name === name)!;
  const targets = new Map<string, TargetSql>();
  const spotOf = (name: string) =>
    rule.spots.find((spot) => name === `${spot.name}_x_ft` || name === `${spot.name}_y_ft`);
  const target = (name: string): TargetSql | undefined => {
    const known = targets.get(name);
    if (known !== undefined) return known;
    const place = `${section.path}.${name}`;
    const resolve: Resolve = (other) => target(other)!.value;
    const direct = rule.columns.get(name);
    const spot = spotOf(name);
    if (direct !== undefined) targets.set(name, ruleSql(direct, column(name), cells, place, resolve));
    else if (spot !== undefined) {
      const x = ruleSql(spot.x, column(`${spot.name}_x_ft`), cells, place, resolve);
      const y = ruleSql(spot.y, column(`${spot.name}_y_ft`), cells, place, resolve);
      const inField = frameSql(spot.frame, x.value, y.value);
      targets.set(`${spot.name}_x_ft`, { value: inField.xFt, bad: x.bad });
      targets.set(`${spot.name}_y_ft`, { value: inField.yFt, bad: y.bad });
    }
    return targets.get(name);
  };
  for (const { name } of columns) target(name);
  return targets;
}

/** What can be computed from the other columns when the source has no column for it, or the cell is empty. */
export function addDerived(section: Section, targets: Map<string, TargetSql>): void {
  if (section.table !== 'plays') return;
  const fill = (name: string, sql: string) => {
    const given = targets.get(name);
    targets.set(name, { value: given === undefined ? sql : `coalesce(${given.value}, ${sql})`, bad: given?.bad });
  };
  const date = targets.get('date');
  if (date !== undefined) fill('season', `year(${date.value})::INTEGER`);
  const x = targets.get('landing_x_ft')?.value;
  const y = targets.get('landing_y_ft')?.value;
  if (x !== undefined && y !== undefined) {
    fill('bearing_deg', `CASE WHEN ${x} <> 0 OR ${y} <> 0 THEN degrees(atan2(${x}, ${y})) END`);
  }
}
