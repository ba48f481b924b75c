import { INCOMING_TABLES, type IncomingColumn, START_LIMITS } from '../book/schema.ts';
import { quoteName, quoteText } from '../book/sql-text.ts';
import { needsOf } from './expression.ts';
import { expressionSql, numberSql } from './expression-sql.ts';
import { frameSql } from './frames.ts';
import type { ColumnRule, RowRule, Section } from './mapping.ts';
import type { SourceReader } from './source-sql.ts';
import { UNITS } from './units.ts';

/** Pairs of columns that are one spot: one without the other is no spot. */
export const PAIRS = ['landing', 'gather', 'start'] as const;

/** Between the parts of a fault as text; no cell of a sane file has it, and if one does only a message is cut. */
export const FAULT_MARK = '\u001f';

/** SQL of a target: its value, and the text that could not be used for it (NULL when all is well). */
interface TargetSql {
  readonly value: string;
  readonly bad: string | undefined;
}

/**
 * Source cells used by a section, each read and cleaned once. Names in SQL: r as it stands, s trimmed text, n number.
 * Whatever runs on every cell of a file costs as much as reading it, so full trimming is kept for cells that need it.
 */
class SourceCells {
  readonly #reader: SourceReader;
  readonly #decimal: string;
  readonly #empty: readonly string[];
  readonly #cells = new Map<string, string>();
  readonly #texts = new Set<number>();
  readonly #numbers = new Set<number>();

  constructor(reader: SourceReader, decimal: string, empty: readonly string[]) {
    this.#reader = reader;
    this.#decimal = decimal;
    this.#empty = empty;
  }

  #index(name: string, place: string): number {
    if (!this.#cells.has(name)) this.#cells.set(name, this.#reader.cell(name, place));
    return [...this.#cells.keys()].indexOf(name);
  }

  #cleaned(raw: string): string {
    const trimmed = `trim(${raw}, ' \t\r\n')`;
    if (this.#empty.length > 0) {
      const words = ['', ...this.#empty.map((word) => word.trim())].map(quoteText);
      return `CASE WHEN ${trimmed} IN (${words.join(', ')}) THEN NULL ELSE ${trimmed} END`;
    }
    // Everything below '!' begins with a space or a control character, or is empty.
    return `CASE WHEN ${raw} < '!' OR suffix(${raw}, ' ') THEN nullif(${trimmed}, '') ELSE ${raw} END`;
  }

  /** Trimmed text, NULL when empty; worked out for every row. */
  text(name: string, place: string): string {
    const index = this.#index(name, place);
    this.#texts.add(index);
    return `s${index}`;
  }

  /** The same, worked out where it stands: for branches that few rows take. */
  rareText(name: string, place: string): string {
    return `(${this.#cleaned(`r${this.#index(name, place)}`)})`;
  }

  number(name: string, place: string): string {
    const index = this.#index(name, place);
    this.#numbers.add(index);
    return `n${index}`;
  }

  /** The source with r, s and n columns. */
  from(): string {
    const raw = [...this.#cells.values()].map((cell, index) => `${cell} AS r${index}`);
    const { broken } = this.#reader;
    if (broken !== undefined) raw.push(`${broken} AS broken`);
    const texts = [...this.#texts].map((index) => `, ${this.#cleaned(`r${index}`)} AS s${index}`);
    const numbers = [...this.#numbers].map((index) => `, ${this.#numberSql(`r${index}`)} AS n${index}`);
    return `(SELECT *${texts.join('')}${numbers.join('')} FROM (SELECT ${raw.join(', ') || '1'} FROM ${this.#reader.from()}))`;
  }

  #numberSql(raw: string): string {
    const given = this.#empty.length === 0 ? raw : `(${this.#cleaned(raw)})`;
    if (this.#decimal !== ',') return `try_cast(${given} AS DOUBLE)`;
    // Beside a decimal comma a point is a mark of thousands, and such a number is not to be guessed at.
    return `CASE WHEN contains(${given}, '.') THEN NULL ELSE try_cast(replace(${given}, ',', '.') AS DOUBLE) END`;
  }
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
function targetsOf(section: Section, rule: RowRule, cells: SourceCells): Map<string, TargetSql> {
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
function addDerived(section: Section, targets: Map<string, TargetSql>): void {
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

const VALUE = (index: number) => `v${index}`;
const BAD = (index: number) => `b${index}`;
/** A measured time may lie a little before contact: clocks of suppliers jitter. It is kept as delivered. */
const JITTER_S = 0.1;
/** Dates outside these years are slips of the pen, and the engine's `infinity`. */
const DATES = "DATE '1850-01-01' AND DATE '2200-12-31'";

/** One branch of the fault: what, which column, and the value to show. */
function branch(condition: string, kind: string, index: number | string, value: string): string {
  return `WHEN ${condition} THEN '${kind}${FAULT_MARK}${index}${FAULT_MARK}' || coalesce(left(${value}, 200), '')`;
}

/** Checks of one row by itself, first fault first. The kinds are put in words by faults.ts. */
function faultSql(section: Section, filled: readonly boolean[], canBeBad: readonly boolean[], broken: boolean): string {
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
