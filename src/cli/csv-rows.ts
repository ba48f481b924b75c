import { csvText } from '../csv-text.ts';

/** A row by column names; all rows of a table have the same. */
export type CsvRow = Readonly<Record<string, string | number | null>>;

/** Rows as CSV, the first line the names; numbers as exact as they are, nothing where there is none. */
export function csvRows(rows: readonly CsvRow[]): string {
  const names = Object.keys(rows[0] ?? {});
  return [names, ...rows.map((row) => names.map((name) => cellText(row[name] ?? null)))]
    .map((cells) => `${cells.join(',')}\r\n`)
    .join('');
}

function cellText(cell: string | number | null): string {
  if (cell === null || Number.isNaN(cell)) return '';
  return typeof cell === 'number' ? String(cell) : csvText(cell);
}
