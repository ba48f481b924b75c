import type { Cell } from '../../../src/book/store.ts';
import { csvText } from '../../../src/csv-text.ts';
import type { Row, RowSource, Sort } from './row-source.ts';

/** Rows that the page has in memory, in the order of `sort`; ties keep the given order. */
export class LocalRows implements RowSource {
  readonly failure = null;
  onChange = () => {};
  readonly #rows: readonly Row[];

  constructor(rows: readonly Row[], sort: Sort | null = null) {
    this.#rows = sort === null ? rows : sorted(rows, sort);
  }

  get rowCount(): number {
    return this.#rows.length;
  }

  row(index: number): Row | undefined {
    return this.#rows[index];
  }

  need(): void {}

  retry(): void {}

  async asTabText(columns: readonly string[], first: number, end: number): Promise<string> {
    return delimited(this.#rows.slice(first, end), columns, '\t');
  }

  asCsv(columns: readonly string[]): { readonly text: string } {
    return { text: delimited(this.#rows, columns, ',') };
  }
}

/** Rows as text with a header; CRLF ends every line, numbers are in full precision. */
export function delimited(rows: readonly Row[], columns: readonly string[], separator: ',' | '\t'): string {
  const lines = [
    columns.map((column) => csvText(column, separator)),
    ...rows.map((row) => columns.map((column) => cellText(row[column], separator))),
  ];
  return lines.map((cells) => `${cells.join(separator)}\r\n`).join('');
}

function cellText(cell: Cell | undefined, separator: ',' | '\t'): string {
  if (cell === null || cell === undefined) return '';
  return typeof cell === 'string' ? csvText(cell, separator) : String(cell);
}

/** Empty cells come last either way. */
function sorted(rows: readonly Row[], { column, descending }: Sort): Row[] {
  const sign = descending ? -1 : 1;
  return [...rows].sort((a, b) => {
    const left = a[column] ?? null;
    const right = b[column] ?? null;
    if (left === null || right === null) return Number(left === null) - Number(right === null);
    if (typeof left === 'string' && typeof right === 'string') return sign * left.localeCompare(right);
    return sign * (Number(left) - Number(right));
  });
}
