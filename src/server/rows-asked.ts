import type { Store } from '../book/store.ts';
import { checkTableName, type RowsQuery, tableQuery } from '../commands/table/table-query.ts';
import {
  FOUND_PLAY_COLUMNS,
  FOUND_PLAYS_TABLES,
  foundPlaysQuery,
  type PlayOrder,
  prepareFoundPlays,
} from '../commands/views/found-plays.ts';
import { type CellsAsked, readCellsAsked, readQuestion } from './table-question.ts';

/** The one name beside those of the book's tables. */
const FOUND_PLAYS = 'found_plays';

/** Rows that a page asks for by name: of a table of the book, or plays that were looked for. */
export interface RowsAsked {
  readonly query: RowsQuery;
  readonly cells: CellsAsked;
  /** Tables of the book that the query rests on. */
  readonly tables: readonly string[];
  /** Makes what else it reads, once for a copy of the book. */
  readonly prepare?: (store: Store) => Promise<void>;
}

type Words = Readonly<Record<string, string>>;

/** @throws ExpectedFailure of kind `usage` that names the word, or says that there is no such table */
export function rowsAsked(name: string, words: Words): RowsAsked {
  if (name === FOUND_PLAYS) {
    const cells = readCellsAsked(FOUND_PLAYS, FOUND_PLAY_COLUMNS, words);
    return {
      query: foundPlaysQuery(playQuestion(words)),
      cells,
      tables: FOUND_PLAYS_TABLES,
      prepare: prepareFoundPlays,
    };
  }
  const table = checkTableName(name);
  const { filters, conditions, ...cells } = readQuestion(table, words);
  return { query: tableQuery(table, filters, conditions), cells, tables: [table] };
}

/** `season`, `team`, `defender`, `batter`, `kind`, `grade`, `entry`, `out` (yes or no), `order`; an empty word asks for nothing. */
function playQuestion(words: Words) {
  const word = (name: string) => words[name] || undefined;
  return {
    season: word('season') === undefined ? undefined : Number(word('season')),
    team: word('team'),
    defender: word('defender'),
    batter: word('batter'),
    ballKind: word('kind'),
    grade: word('grade'),
    entry: word('entry'),
    out: word('out') === undefined ? undefined : word('out') === 'yes',
    order: (word('order') ?? 'swing') as PlayOrder,
  };
}
