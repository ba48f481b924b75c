import { cellOf } from '../../book/cell.ts';
import type { Cell, ColumnTable } from '../../book/store.ts';

const BASES = 8;
const OUTS = 3;

type Row = Readonly<Record<string, Cell>>;

function rowsOf(table: ColumnTable): Row[] {
  return Array.from({ length: table.rowCount }, (_, row) =>
    Object.fromEntries(table.columns.map((column) => [column.name, cellOf(column, row)])),
  );
}

/** Lines of cells in columns, the first to the left, the others to the right. */
function aligned(rows: readonly (readonly string[])[]): string {
  const widths = rows[0]!.map((_, k) => Math.max(...rows.map((cells) => cells[k]!.length)));
  const line = (cells: readonly string[]) =>
    cells.map((cell, k) => (k === 0 ? cell.padEnd(widths[k]!) : cell.padStart(widths[k]!))).join('  ');
  return `${rows.map((cells) => line(cells).trimEnd()).join('\n')}\n`;
}

/** The run table as one reads it in a book: a row for the men on base, a column for the outs; `table` has all 24 states. */
export function runTableText(table: ColumnTable): string {
  const rows = rowsOf(table);
  const cell = (bases: number, outs: number) => {
    const { runs, se, innings } = rows[outs * BASES + bases]!;
    const error = se === null ? '' : ` ± ${(se as number).toFixed(3)}`;
    return `${(runs as number).toFixed(3)}${error} (${innings})`;
  };
  const lines = Array.from({ length: BASES }, (_, bases) => [
    String(rows[bases]!.runners),
    ...Array.from({ length: OUTS }, (_, outs) => cell(bases, outs)),
  ]);
  return aligned([['runners', 'nobody out', 'one out', 'two out'], ...lines]);
}

/** Hits and outs by class of ball: their mean over the states, and the states in which they are worth least and most. */
export function runValuesText(table: ColumnTable): string {
  const groups = new Map<string, Row[]>();
  for (const row of rowsOf(table)) {
    const key = `${row.ball} ${row.event}`;
    groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  const signed = (runs: number) => `${runs > 0 ? '+' : ''}${runs.toFixed(3)}`;
  const lines = [...groups.values()].map((rows) => {
    const { ball, event } = rows[0]!;
    const mean = rows.find(({ state }) => state === null);
    const byState = rows
      .filter(({ state }) => state !== null)
      .map(({ state, runs }) => ({ state: String(state), runs: Number(runs) }))
      .sort((a, b) => a.runs - b.runs);
    const [least, most] = [byState[0]!, byState.at(-1)!];
    return [
      String(ball),
      String(event),
      mean === undefined ? '' : signed(Number(mean.runs)),
      `${signed(least.runs)} (${least.state})`,
      `${signed(most.runs)} (${most.state})`,
    ];
  });
  return aligned([['ball', 'event', 'mean', 'least', 'most'], ...lines]);
}

/** What has to be said with either table: whose innings they rest on, and whether this book's entries use them. */
export function runNotes(settings: Readonly<Record<string, string>>, source: string): string {
  const from =
    source === 'book'
      ? "From this book's own innings 1 to 8, all seasons together; ± is one standard error, in brackets the half innings seen."
      : `The published table, ${source}, without standard errors; in brackets the book's own half innings. ${settings.run_table ?? ''}`;
  const use =
    settings.runs === 'flat'
      ? 'The entries of this book were built with --runs flat and do not use it: every out is worth the same.'
      : `The entries of this book were built with --runs ${settings.runs} and rest on it.`;
  return `${from.trim()}\n${use}\n`;
}
