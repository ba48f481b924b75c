import { addressOf } from '../../state/address.ts';
import { numberOf, type SumKind, sumOf, type Unit } from '../../state/entry-sums.ts';
import { entryWords } from '../../state/entry-words.ts';
import { count, percent, signed } from '../../state/number-text.ts';
import type { Row } from '../../state/table/row-source.ts';
import type { TableColumn } from '../../table/table-column.ts';

const club = (row: Row) => String(row.team ?? '');

/** Columns of clubs; the staircase column is drawn by the page. */
export function teamColumns(kinds: readonly SumKind[], unit: Unit, hasOvershifts: boolean): TableColumn[] {
  const overshifts: TableColumn[] = hasOvershifts
    ? [
        {
          key: 'overshift_plays',
          label: 'over-shifts',
          word: 'overshift',
          widthPx: 82,
          isNumber: true,
          text: (row) => count(numberOf(row, 'overshift_plays') ?? 0),
        },
        {
          key: 'placement_runs_in_overshift',
          label: 'placement runs in',
          widthPx: 96,
          isNumber: true,
          tone: 'placement',
          text: (row) => signed(numberOf(row, 'placement_runs_in_overshift')),
        },
        {
          key: 'placement_runs_otherwise',
          label: 'and otherwise',
          widthPx: 96,
          isNumber: true,
          tone: 'placement',
          text: (row) => signed(numberOf(row, 'placement_runs_otherwise')),
        },
      ]
    : [];
  return [
    {
      key: 'team',
      label: 'Club',
      widthPx: 140,
      text: club,
      href: (row) => addressOf(['teams', club(row)], { season: Number(row.season) }),
    },
    { key: 'plays', label: 'plays', widthPx: 70, isNumber: true, text: (row) => count(numberOf(row, 'plays') ?? 0) },
    ...kinds.map(
      (kind): TableColumn => ({
        key: `${kind}_${unit}`,
        label: kind,
        word: kind,
        widthPx: kind === 'placement' ? 96 : 72,
        isNumber: true,
        tone: kind,
        text: (row) => signed(sumOf(row, kind, unit)),
      }),
    ),
    {
      key: `net_${unit}`,
      label: `net ${unit}`,
      word: 'net',
      widthPx: 78,
      isNumber: true,
      isStrong: true,
      text: (row) => signed(sumOf(row, 'net', unit)),
      copies: [`net_${unit}`, ...(unit === 'runs' ? ['net_runs_se'] : [])],
    },
    {
      key: 'staircase',
      label: 'step by step',
      widthPx: 190,
      canSort: false,
      text: (row) => entryWords(row, unit),
      copies: [],
    },
    ...overshifts,
    {
      key: 'share_full',
      label: 'full',
      word: 'full',
      widthPx: 66,
      isNumber: true,
      text: (row) => percent(numberOf(row, 'share_full')),
    },
  ];
}
