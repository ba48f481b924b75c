import { addressOf } from '../../state/address.ts';
import { numberOf, type SumKind, type Unit } from '../../state/entry-sums.ts';
import { entryWords } from '../../state/entry-words.ts';
import { count, percent, signed } from '../../state/number-text.ts';
import type { Row } from '../../state/table/row-source.ts';
import type { TableColumn } from '../../table/table-column.ts';

interface Shown {
  readonly kinds: readonly SumKind[];
  readonly unit: Unit;
  readonly isRate: boolean;
  readonly hasPosition: boolean;
  readonly ratings: readonly ('reach' | 'finish')[];
}

const text = (row: Row, column: string) => String(row[column] ?? '');

export function fielderColumns({ kinds, unit, isRate, hasPosition, ratings }: Shown): TableColumn[] {
  const decimals = isRate ? 2 : 1;
  const position: TableColumn[] = hasPosition
    ? [{ key: 'position', label: 'pos.', widthPx: 50, isNumber: true, text: (row) => text(row, 'position') }]
    : [];
  return [
    {
      key: 'name',
      label: 'Defender',
      widthPx: 152,
      text: (row) => text(row, 'name') || text(row, 'fielder_id'),
      href: (row) =>
        addressOf(['defenders', text(row, 'fielder_id')], {
          season: text(row, 'season'),
          position: text(row, 'position'),
        }),
      copies: ['name', 'fielder_id'],
    },
    {
      key: 'team',
      label: 'Club',
      widthPx: 122,
      text: (row) => text(row, 'team'),
      href: (row) => addressOf(['teams', text(row, 'team')], { season: text(row, 'season') }),
    },
    ...position,
    {
      key: 'chances',
      label: 'chances',
      word: 'chances',
      widthPx: 78,
      isNumber: true,
      text: (row) => count(numberOf(row, 'chances') ?? 0),
    },
    ...kinds.map(
      (kind): TableColumn => ({
        key: `${kind}_${unit}`,
        label: kind,
        word: kind,
        widthPx: kind === 'placement' ? 90 : isRate ? 74 : 66,
        isNumber: true,
        tone: kind,
        text: (row) => signed(numberOf(row, `${kind}_${unit}`), decimals),
        copies: [`${kind}_${unit}`, ...(unit === 'runs' ? [`${kind}_runs_se`] : [])],
      }),
    ),
    {
      key: `net_${unit}`,
      label: `net ${unit}`,
      word: 'net',
      widthPx: 76,
      isNumber: true,
      isStrong: true,
      text: (row) => signed(numberOf(row, `net_${unit}`), decimals),
      copies: [`net_${unit}`, ...(unit === 'runs' ? ['net_runs_se'] : [])],
    },
    {
      key: 'bars',
      label: `${unit} by entry`,
      widthPx: 112,
      canSort: false,
      text: (row) => entryWords(row, unit),
      copies: [],
    },
    ...ratings.map(
      (kind): TableColumn => ({
        key: `${kind}_rating`,
        label: `${kind} rating`,
        word: 'rating',
        widthPx: 92,
        tone: kind,
        isNumber: false,
        text: (row) => ratingText(row, kind),
        copies: [`${kind}_rating`, `${kind}_rating_lo80`, `${kind}_rating_hi80`],
      }),
    ),
    {
      key: 'share_full',
      label: 'full',
      word: 'full',
      widthPx: 60,
      isNumber: true,
      text: (row) => percent(numberOf(row, 'share_full')),
    },
  ];
}

export function ratingText(row: Row, kind: 'reach' | 'finish'): string {
  const value = numberOf(row, `${kind}_rating`);
  if (value === null) return 'none';
  const [lo, hi] = [numberOf(row, `${kind}_rating_lo80`), numberOf(row, `${kind}_rating_hi80`)];
  return `${signed(value)}, 80 % ${signed(lo)} to ${signed(hi)}`;
}
