import { addressOf } from '../../state/address.ts';
import { numberOf, type SumKind } from '../../state/entry-sums.ts';
import { signed } from '../../state/number-text.ts';
import type { Row } from '../../state/table/row-source.ts';
import type { TableColumn } from '../../table/table-column.ts';

const text = (row: Row, column: string) => String(row[column] ?? '').replaceAll('_', ' ');

/** Columns of a man's plays: what each was, and what he made of it. */
export function playColumns(kinds: readonly SumKind[]): TableColumn[] {
  const words = (key: string, label: string, widthPx: number): TableColumn => ({
    key,
    label,
    widthPx,
    text: (row) => text(row, key),
  });
  return [
    {
      key: 'play_id',
      label: 'Play',
      widthPx: 140,
      text: (row) => text(row, 'play_id'),
      href: (row) => addressOf(['plays', String(row.play_id)]),
    },
    words('date', 'date', 114),
    words('batting_team', 'against', 120),
    words('ball_kind', 'ball', 76),
    words('result', 'result', 120),
    ...kinds.map(
      (kind): TableColumn => ({
        key: `${kind}_runs`,
        label: kind,
        word: kind,
        widthPx: kind === 'placement' ? 96 : 76,
        isNumber: true,
        tone: kind,
        text: (row) => signed(numberOf(row, `${kind}_runs`), 2),
        copies: [`${kind}_runs`, `${kind}_outs`],
      }),
    ),
    {
      key: 'net_runs',
      label: 'net runs',
      word: 'net',
      widthPx: 84,
      isNumber: true,
      isStrong: true,
      text: (row) => signed(numberOf(row, 'net_runs'), 2),
      copies: ['net_runs', 'net_outs'],
    },
    {
      key: 'size',
      label: 'size',
      widthPx: 60,
      isNumber: true,
      text: (row) => Math.abs(numberOf(row, 'net_runs') ?? 0).toFixed(2),
      copies: [],
    },
  ];
}
