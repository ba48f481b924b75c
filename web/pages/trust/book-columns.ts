import type { JsonColumn } from '../../../src/server/answers.ts';
import { addressOf } from '../../state/address.ts';
import { nameOf } from '../../state/book.svelte.ts';
import type { Row } from '../../state/table/row-source.ts';
import type { TableColumn } from '../../table/table-column.ts';

const PEOPLE = new Set(['fielder_id', 'batter_id', 'pitcher_id', 'person_id']);
const SIGNED = /(^|_)(outs|runs)$|rating|shift$/;
const LETTER_PX = 8.2;

/** Columns of any table of the book, under the names of the data contract. */
export function bookColumns(columns: readonly Pick<JsonColumn, 'name' | 'type'>[]): TableColumn[] {
  return columns.map(({ name, type }) => {
    const isNumber = type === 'double' || type === 'integer';
    const isId = name === 'play_id' || PEOPLE.has(name);
    const least = isId ? 144 : type === 'text' ? 120 : 76;
    const column: TableColumn = {
      key: name,
      label: name.replaceAll('_', ' '),
      widthPx: Math.max(
        name === 'text' || name === 'reason' ? 300 : least,
        Math.min(150, name.length * LETTER_PX + 24),
      ),
      isNumber,
      text: (row) => cellText(row, name, type),
    };
    if (name === 'play_id') return { ...column, href: (row) => link('plays', row, name) };
    if (name === 'fielder_id') return { ...column, href: (row) => link('defenders', row, name) };
    return column;
  });
}

function link(page: string, row: Row, column: string): string | null {
  const id = row[column];
  return id === null || id === undefined ? null : addressOf([page, String(id)]);
}

function cellText(row: Row, column: string, type: JsonColumn['type']): string {
  const cell = row[column];
  if (cell === null || cell === undefined) return '';
  if (typeof cell === 'boolean') return cell ? 'yes' : 'no';
  if (PEOPLE.has(column)) return nameOf(String(cell));
  if (typeof cell !== 'number' || type === 'integer') return String(cell).replace(/^-(?=\d)/, '\u2212');
  const text = Number(cell.toFixed(3)).toString().replace('-', '\u2212');
  return SIGNED.test(column) && cell > 0 && text !== '0' ? `+${text}` : text;
}
