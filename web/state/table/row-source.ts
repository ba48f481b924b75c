import type { Cell } from '../../../src/book/store.ts';

/** A row by column name. */
export type Row = Readonly<Record<string, Cell>>;

export interface Sort {
  /** A column's name. */
  readonly column: string;
  readonly descending: boolean;
}

/** Where a table gets its rows from: the page's own memory, or the server piece by piece. */
export interface RowSource {
  /** Null as long as it is not known. */
  readonly rowCount: number | null;
  /** What went wrong with the last piece, in words; null when nothing did. */
  readonly failure: string | null;
  /** The row at this place of the order, undefined while it is on its way. */
  row(index: number): Row | undefined;
  /** Asks for these rows; `onChange` tells when they are there. */
  need(first: number, end: number): void;
  /** Tries again what failed. */
  retry(): void;
  /** Rows `first` to `end` as tab-separated text with a header, of these columns. */
  asTabText(columns: readonly string[], first: number, end: number): Promise<string>;
  /** Where all rows can be had as CSV: an address of the server, or the text itself. */
  asCsv(columns: readonly string[]): { readonly address: string } | { readonly text: string };
  /** Called after every change of the above. */
  onChange: () => void;
}

/** Reads the sort of an address, such as `-net_runs`; null when there is none. */
export function readSort(word: string | undefined): Sort | null {
  if (word === undefined || word === '' || word === '-') return null;
  return { column: word.replace(/^-/, ''), descending: word.startsWith('-') };
}

export const sortWord = ({ column, descending }: Sort): string => `${descending ? '-' : ''}${column}`;

/** What a click on a column's head makes of the sort: numbers begin with the largest, words with the first. */
export function nextSort(now: Sort | null, column: string, isNumber: boolean): Sort {
  return now?.column === column ? { column, descending: !now.descending } : { column, descending: isNumber };
}
