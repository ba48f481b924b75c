import { INCOMING_TABLES, OUTGOING_TABLES } from '../../book/schema.ts';
import { quoteName, quoteText } from '../../book/sql-text.ts';
import type { ColumnType } from '../../book/store.ts';
import { ExpectedFailure } from '../../expected-failure.ts';
import { DIRECTION_PARTS, WHOLE_PART } from '../../ratings/directions.ts';
import { BALL_CLASSES } from '../../ratings/skills.ts';

const KIND_ORDER = `list_position(['placement', 'reach', 'finish', 'turn', 'ground', 'whole', 'net'], kind)`;

/** The tables that `leatherbook table` shows, each with the order of its rows. The rest of the columns breaks ties. */
const ORDERS = {
  fielders: 'net_outs DESC NULLS LAST, season, fielder_id, position, team',
  teams: 'net_outs DESC NULLS LAST, season, team',
  entries: `season, play_id, ${KIND_ORDER}, position, fielder_id`,
  marks: 'season, play_id',
  plays: 'coalesce(season, year(date)), play_id',
  alignments: 'play_id',
  reliability: `position, ${KIND_ORDER}, method, min_chances`,
  half_signal: `position, ${KIND_ORDER}`,
  careers: 'net_outs DESC NULLS LAST, fielder_id, position',
  rates: 'net_outs_per_100 - 1.2816 * net_outs_per_100_se DESC NULLS LAST, season, fielder_id, position, team',
  room_to_gain: 'fielder_id IS NULL, gain_runs DESC, season, fielder_id, position, team',
  game_chances: 'season, game_id, team, position, fielder_id',
  balance: 'season, ball_class, mark_or_kind',
  run_table: 'outs, rowid',
  run_values: 'rowid',
  ratings: `season DESC, kind DESC, position, part <> 'all', part, rating DESC NULLS LAST, fielder_id`,
  team_placement: 'season DESC, batter_side, placement_rating DESC NULLS LAST, team',
  next_season: 'expected_outs DESC NULLS LAST, fielder_id, position',
  plans: 'defence, gain_runs_per_100 DESC, batter_id, side, outs, runners, plan_id',
  plan_starts: 'plan_id, position',
  intake_log: 'rowid',
  set_aside: 'file, line, rowid',
} as const;

export type TableName = keyof typeof ORDERS;
export const TABLE_NAMES = Object.keys(ORDERS) as TableName[];

export interface TableFilters {
  readonly season?: number | undefined;
  /** Scorekeeper's number, 1 to 9. */
  readonly position?: number | undefined;
  readonly team?: string | undefined;
  /** Of the table ratings: `all`, a class of balls, or a direction. */
  readonly part?: string | undefined;
  /** Smallest `chances`. */
  readonly minChances?: number | undefined;
}

interface Filter {
  readonly option: string;
  readonly column: string;
  readonly given: string;
  readonly sql: string;
}

export function columnsOf(name: TableName): readonly string[] {
  return [...columnTypesOf(name).keys()];
}

/** The columns of a table in order, and what each holds. */
export function columnTypesOf(name: TableName): ReadonlyMap<string, ColumnType> {
  const { columns } = name === 'plays' ? INCOMING_TABLES.plays : OUTGOING_TABLES[name];
  return new Map(columns.map((column) => [column.name, column.type]));
}

/** @throws ExpectedFailure of kind `usage` when there is no such table */
export function checkTableName(name: string): TableName {
  if (TABLE_NAMES.includes(name as TableName)) return name as TableName;
  throw new ExpectedFailure('usage', `There is no table "${name}".`, `The tables are ${TABLE_NAMES.join(', ')}.`);
}

function wholeNumber(option: string, value: number, low: number, high: number): string {
  if (Number.isInteger(value) && value >= low && value <= high) return String(value);
  throw new ExpectedFailure(
    'usage',
    `${option} wants a whole number from ${low} to ${high} and got ${value}.`,
    `Correct ${option}.`,
  );
}

function knownPart(part: string): string {
  const parts = [WHOLE_PART, ...BALL_CLASSES, ...DIRECTION_PARTS];
  if (parts.includes(part)) return part;
  throw new ExpectedFailure('usage', `--part got "${part}".`, `The parts of ratings are ${parts.join(', ')}.`);
}

function filtersOf(name: TableName, { season, position, team, part, minChances }: TableFilters): Filter[] {
  const filters: Filter[] = [];
  const add = (option: string, column: string, comparison: string, given: string, literal = given) =>
    filters.push({ option, column, given, sql: `${quoteName(column)} ${comparison} ${literal}` });
  if (season !== undefined) add('--season', 'season', '=', wholeNumber('--season', season, 1, 9999));
  if (position !== undefined) add('--position', 'position', '=', wholeNumber('--position', position, 1, 9));
  // A plan is one club's, whose column says what it is to the plan.
  if (team !== undefined) add('--team', name === 'plans' ? 'defence' : 'team', '=', team, quoteText(team));
  if (part !== undefined) add('--part', 'part', '=', knownPart(part), quoteText(part));
  if (minChances !== undefined) {
    if (!(minChances >= 0 && Number.isFinite(minChances))) {
      throw new ExpectedFailure(
        'usage',
        `--min-chances wants a number from 0 up and got ${minChances}.`,
        'Correct --min-chances.',
      );
    }
    add('--min-chances', 'chances', '>=', String(minChances));
  }
  return filters;
}

/** Another order of rows than the table's own, and where to begin in it. */
export interface RowWindow {
  /** Columns to order by, first first; the table's own order breaks ties. Empty cells come last either way. */
  readonly sort?: readonly { readonly column: string; readonly descending: boolean }[];
  /** Rows to leave out at the beginning. */
  readonly from?: number;
}

/** Rows that are asked for. */
export interface RowsQuery {
  /** Without a limit, all rows in order. */
  readonly rowsSql: (columns: readonly string[], limit?: number, window?: RowWindow) => string;
  readonly countSql: string;
}

export interface TableQuery extends RowsQuery {
  readonly name: TableName;
  /** The filters as the user wrote them, for messages; empty when there are none. */
  readonly asked: string;
}

/**
 * @param conditions further conditions on the rows, as SQL
 * @throws ExpectedFailure of kind `usage` when the table does not have the column that a filter is about
 */
export function tableQuery(name: TableName, filters: TableFilters, conditions: readonly string[] = []): TableQuery {
  const list = filtersOf(name, filters);
  const columns = columnsOf(name);
  for (const { option, column } of list) {
    if (columns.includes(column)) continue;
    throw new ExpectedFailure(
      'usage',
      `${option} does not go with the table ${name}, which has no column ${column}.`,
      `Leave ${option} out. The columns of ${name} are ${columns.join(', ')}.`,
    );
  }
  const all = [...list.map(({ sql }) => sql), ...conditions];
  const where = all.length === 0 ? '' : ` WHERE ${all.join(' AND ')}`;
  return {
    name,
    rowsSql: (wanted, limit, { sort = [], from = 0 } = {}) => {
      const chosen = sort.map(
        ({ column, descending }) => `${quoteName(column)} ${descending ? 'DESC' : 'ASC'} NULLS LAST`,
      );
      return (
        `SELECT ${wanted.map(quoteName).join(', ')} FROM ${quoteName(name)}${where}` +
        ` ORDER BY ${[...chosen, ORDERS[name]].join(', ')}` +
        (limit === undefined ? '' : ` LIMIT ${limit}`) +
        (from === 0 ? '' : ` OFFSET ${from}`)
      );
    },
    countSql: `SELECT count(*) AS n FROM ${quoteName(name)}${where}`,
    asked: list.map(({ option, given }) => `${option} ${given}`).join(' '),
  };
}
