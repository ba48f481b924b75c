import { cellOf } from '../../book/cell.ts';
import type { Column, ColumnTable } from '../../book/store.ts';
import { formatOf, PERSON_COLUMNS } from './text-columns.ts';

/** A longer cell is cut, so that one line of somebody's source file cannot push a table off the terminal. */
const LONGEST_CELL = 60;
const GAP = '  ';

/** A number as text shows it; never a minus before nothing but zeros. */
export function textNumber(value: number, columnName: string): string {
  const { decimals, isSigned } = formatOf(columnName);
  const rounded = Number(value.toFixed(decimals)) === 0 ? 0 : value;
  return (isSigned && rounded > 0 ? '+' : '') + rounded.toFixed(decimals);
}

/** Control characters of somebody's data must not reach the terminal. */
function plain(text: string): string {
  const visible = [...text.replace(/\p{Cc}/gu, '·')];
  return visible.length > LONGEST_CELL ? `${visible.slice(0, LONGEST_CELL - 1).join('')}…` : visible.join('');
}

function textCell(column: Column, row: number, names: ReadonlyMap<string, string>): string {
  const cell = cellOf(column, row);
  if (cell === null) return '';
  if (typeof cell === 'boolean') return cell ? 'yes' : 'no';
  if (typeof cell === 'number') return column.type === 'double' ? textNumber(cell, column.name) : String(cell);
  const name = PERSON_COLUMNS.includes(column.name) ? names.get(cell) : undefined;
  return plain(name === undefined ? cell : `${cell} ${name}`);
}

const widthOf = (text: string) => [...text].length;

export interface TextTable {
  readonly lines: string;
  /** Columns left out because they hold nothing. */
  readonly emptyColumns: readonly string[];
}

/**
 * A table in aligned columns, numbers to the right.
 * @param names names by person id, put after the ids; pass none when the table has the names itself
 */
export function renderText(table: ColumnTable, names: ReadonlyMap<string, string>): TextTable {
  const shown: { cells: string[]; toRight: boolean; width: number }[] = [];
  const emptyColumns: string[] = [];
  for (const column of table.columns) {
    const cells = Array.from({ length: table.rowCount }, (_, row) => textCell(column, row, names));
    if (cells.every((cell) => cell === '')) {
      emptyColumns.push(column.name);
      continue;
    }
    cells.unshift(column.name);
    const width = cells.reduce((widest, cell) => Math.max(widest, widthOf(cell)), 0);
    shown.push({ cells, toRight: column.type === 'integer' || column.type === 'double', width });
  }
  const lines = Array.from({ length: table.rowCount + 1 }, (_, line) =>
    shown
      .map(({ cells, toRight, width }) => {
        const cell = cells[line]!;
        const fill = ' '.repeat(width - widthOf(cell));
        return toRight ? fill + cell : cell + fill;
      })
      .join(GAP)
      .trimEnd(),
  );
  return { lines: `${lines.join('\n')}\n`, emptyColumns };
}
