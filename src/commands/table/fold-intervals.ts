import { cellOf } from '../../book/cell.ts';
import type { Cell, Column, ColumnTable } from '../../book/store.ts';
import { textNumber } from './render-text.ts';

/** Values whose bounds may do without their name. */
const PLAIN_BOUNDS = /^r$|rating$/;

type CellReader = (row: number) => Cell;

/** How a value is written with what says how sure it is; `value` is written already. */
interface Fold {
  readonly header: string;
  /** Names of the columns that go into the value's, and do not stand alone. */
  readonly taken: readonly string[];
  readonly parts: readonly CellReader[];
  readonly write: (value: string, parts: readonly string[]) => string;
}

const withError = (value: string, [error]: readonly string[]) => (error?.trim() ? `${value} ± ${error}` : value);

function interval(value: string, [low, high]: readonly string[]): string {
  if (!low?.trim()) return value;
  return high?.trim() ? `${value} (${low} to ${high})` : `${value} (${low} or more)`;
}

/**
 * Puts a number and how sure it is into one column: `x` and `x_se` become `x` in the form `3.1 ± 0.8`, `x` with `x_lo80` and
 * `x_hi80` become `x, 80 %` in the form `3.1 (2.1 to 4.1)`, so with `lo95`;
 * the bounds of a correlation `r` and of a rating may be called `lo95` and so on.
 */
export function foldIntervals(table: ColumnTable): ColumnTable {
  const byName = new Map(table.columns.map((column) => [column.name, column]));
  const folds = new Map(table.columns.map((column) => [column.name, foldOf(column, byName)]));
  const taken = new Set([...folds.values()].flatMap((fold) => fold?.taken ?? []));
  const columns = table.columns
    .filter(({ name }) => !taken.has(name))
    .map((column): Column => {
      const fold = folds.get(column.name);
      return fold ? folded(column, fold, table.rowCount) : column;
    });
  return { rowCount: table.rowCount, columns };
}

function foldOf({ name }: Column, byName: ReadonlyMap<string, Column>): Fold | null {
  const read = (names: readonly string[]) =>
    names.map((other): CellReader => {
      const column = byName.get(other)!;
      return (row) => cellOf(column, row);
    });
  const error = `${name}_se`;
  for (const level of ['80', '95']) {
    for (const prefix of PLAIN_BOUNDS.test(name) ? [`${name}_`, ''] : [`${name}_`]) {
      const bounds = [`${prefix}lo${level}`, `${prefix}hi${level}`];
      if (!bounds.every((bound) => byName.has(bound))) continue;
      return { header: `${name}, ${level} %`, taken: [...bounds, error], parts: read(bounds), write: interval };
    }
  }
  if (byName.has(error)) return { header: name, taken: [error], parts: read([error]), write: withError };
  return null;
}

/** Cells padded so that what belongs together stands below one another. */
function folded(column: Column, { header, parts, write }: Fold, rowCount: number): Column {
  const text = (read: CellReader) =>
    Array.from({ length: rowCount }, (_, row) => {
      const cell = read(row);
      return typeof cell === 'number' ? textNumber(cell, column.name) : '';
    });
  const isInterval = write === interval;
  const partTexts = parts.map((part) => padded(text(part).map((cell) => (isInterval ? cell : cell.replace('+', '')))));
  // Where nothing was found there may yet be a bound on it.
  const values = text((row) => cellOf(column, row)).map((value, row) =>
    value === '' && isInterval && partTexts[0]![row]!.trim() !== '' ? 'none' : value,
  );
  const cells = padded(values).map((value, row) =>
    value.trim() === ''
      ? null
      : write(
          value,
          partTexts.map((part) => part[row]!),
        ).trimEnd(),
  );
  return { name: header, type: 'text', values: cells };
}

function padded(cells: readonly string[]): string[] {
  const width = cells.reduce((widest, cell) => Math.max(widest, cell.length), 0);
  return cells.map((cell) => cell.padStart(width));
}
