import { quoteName, quoteText } from '../book/sql-text.ts';
import type { ColumnType } from '../book/store.ts';
import { columnTypesOf, type TableFilters, type TableName } from '../commands/table/table-query.ts';
import { ExpectedFailure } from '../expected-failure.ts';

/** Most rows of one answer. */
export const MOST_ROWS = 100_000;

/** Which cells a page asks for, and in what order. */
export interface CellsAsked {
  /** Columns to order by, first first; the table's own order breaks ties. */
  readonly sort: readonly { readonly column: string; readonly descending: boolean }[];
  readonly columns: readonly string[];
  readonly from: number;
  readonly count: number;
}

/** What a page asks of a table. */
export interface TableQuestion extends CellsAsked {
  readonly filters: TableFilters;
  /** Conditions on columns beyond the filters of the command line, as SQL. */
  readonly conditions: readonly string[];
}

type Words = Readonly<Record<string, string>>;

/** Words of an address that are no conditions. */
const KNOWN = new Set([
  'season',
  'position',
  'team',
  'min_chances',
  'sort',
  'from',
  'count',
  'columns',
  'search',
  'format',
]);

/**
 * Reads a question from an address's words: `season`, `position`, `team`, `min_chances`; `COLUMN=value,value`,
 * `is_COLUMN=value` for one value that may have commas in it, `min_COLUMN`, `max_COLUMN`; `search` in the text columns; `sort=column,-column`; `columns`; `from`, `count`.
 * @throws ExpectedFailure of kind `usage` that names the word
 */
export function readQuestion(name: TableName, words: Words): TableQuestion {
  const types = columnTypesOf(name);
  return {
    ...readCellsAsked(name, types, words),
    filters: {
      season: optionalNumber(words, 'season'),
      position: optionalNumber(words, 'position'),
      team: words.team,
      minChances: optionalNumber(words, 'min_chances'),
    },
    conditions: conditionsOf(name, types, words),
  };
}

/**
 * Reads `sort`, `columns`, `from` and `count` from an address's words.
 * @param name what has these columns, for the message
 * @throws ExpectedFailure of kind `usage` that names the word
 */
export function readCellsAsked(name: string, types: ReadonlyMap<string, ColumnType>, words: Words): CellsAsked {
  const columns = words.columns === undefined ? [...types.keys()] : words.columns.split(',');
  for (const column of columns) typeOf(name, types, column, 'columns');
  return {
    sort: (words.sort ?? '')
      .split(',')
      .filter((word) => word !== '')
      .map((word) => {
        const column = word.replace(/^-/, '');
        typeOf(name, types, column, 'sort');
        return { column, descending: word.startsWith('-') };
      }),
    columns,
    from: wholeNumber(words, 'from', 0, Number.MAX_SAFE_INTEGER),
    count: wholeNumber(words, 'count', 200, MOST_ROWS),
  };
}

const COMPARISONS = { is: '=', min: '>=', max: '<=' } as const;

function conditionsOf(name: TableName, types: ReadonlyMap<string, ColumnType>, words: Words): string[] {
  const conditions: string[] = [];
  for (const [word, value] of Object.entries(words)) {
    if (KNOWN.has(word)) continue;
    const compared = types.has(word) ? null : /^(is|min|max)_(.+)$/.exec(word);
    const column = compared?.[2] ?? word;
    const type = typeOf(name, types, column, word);
    if (compared !== null) {
      const comparison = COMPARISONS[compared[1] as keyof typeof COMPARISONS];
      conditions.push(`${quoteName(column)} ${comparison} ${literal(type, word, value)}`);
    } else if (value === '') conditions.push(`${quoteName(column)} IS NULL`);
    else {
      const list = value.split(',').map((each) => literal(type, word, each));
      conditions.push(`${quoteName(column)} IN (${list.join(', ')})`);
    }
  }
  const search = words.search?.trim();
  if (search !== undefined && search !== '') {
    const texts = [...types].filter(([, type]) => type === 'text').map(([column]) => column);
    const found = texts.map((column) => `contains(lower(${quoteName(column)}), lower(${quoteText(search)}))`);
    conditions.push(`(${found.join(' OR ')})`);
  }
  return conditions;
}

function typeOf(name: string, types: ReadonlyMap<string, ColumnType>, column: string, word: string): ColumnType {
  const type = types.get(column);
  if (type !== undefined) return type;
  throw new ExpectedFailure(
    'usage',
    `The table ${name} has no column ${column}, which ${word} asks for.`,
    `The columns of ${name} are ${[...types.keys()].join(', ')}.`,
  );
}

function literal(type: ColumnType, word: string, value: string): string {
  if (type === 'text' || type === 'date') return quoteText(value);
  if (type === 'boolean' && (value === 'true' || value === 'false')) return value;
  const number = Number(value);
  if (type !== 'boolean' && value.trim() !== '' && Number.isFinite(number)) return String(number);
  const wanted = type === 'boolean' ? 'true or false' : 'a number';
  throw new ExpectedFailure('usage', `${word} wants ${wanted} and got "${value}".`, `Correct ${word}.`);
}

function optionalNumber(words: Words, word: string): number | undefined {
  const value = words[word];
  return value === undefined || value === '' ? undefined : Number(literal('double', word, value));
}

function wholeNumber(words: Words, word: string, byDefault: number, most: number): number {
  const value = optionalNumber(words, word) ?? byDefault;
  if (Number.isInteger(value) && value >= 0 && value <= most) return value;
  throw new ExpectedFailure(
    'usage',
    `${word} wants a whole number from 0 to ${most} and got ${value}.`,
    `Correct ${word}.`,
  );
}
