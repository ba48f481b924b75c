import { addressOf } from '../../state/address.ts';
import { numberOf } from '../../state/entry-sums.ts';
import { chance, signed } from '../../state/number-text.ts';
import type { Row } from '../../state/table/row-source.ts';
import type { TableColumn } from '../../table/table-column.ts';
import type { Word } from '../../words/words.ts';
import { ballWords, dateText } from './play-story.ts';

/** Words of the address that say which plays are looked for. */
export const FOUND_WORDS = ['season', 'team', 'defender', 'batter', 'kind', 'grade', 'entry', 'out', 'order'] as const;
export type FoundWord = (typeof FOUND_WORDS)[number];

const text = (row: Row, column: string) => String(row[column] ?? '');
const kindOf = (row: Row) => text(row, 'kind');

/** Columns of plays that were found, each with the entry that stands for it. */
export function foundColumns(): TableColumn[] {
  const mark = (key: Word, widthPx: number): TableColumn => ({
    key,
    label: key,
    word: key,
    widthPx,
    isNumber: true,
    text: (row) => chance(numberOf(row, key)),
  });
  const amount = (key: 'outs' | 'runs', decimals: number, widthPx: number): TableColumn => ({
    key,
    label: key,
    widthPx,
    isNumber: true,
    toneOf: kindOf,
    text: (row) => signed(numberOf(row, key), decimals),
  });
  return [
    {
      key: 'ball_kind',
      label: 'Play',
      widthPx: 190,
      text: (row) =>
        ballWords(
          text(row, 'ball_kind'),
          numberOf(row, 'bearing_deg') ?? Number.NaN,
          numberOf(row, 'landing_ft') ?? Number.NaN,
        ),
      href: (row) => addressOf(['plays', text(row, 'play_id')]),
      copies: ['play_id', 'ball_kind', 'bearing_deg', 'landing_ft', 'exit_speed_mph', 'result'],
    },
    { key: 'date', label: 'Date', widthPx: 112, text: (row) => dateText(text(row, 'date')) },
    { key: 'fielding_team', label: 'In the field', widthPx: 118, text: (row) => text(row, 'fielding_team') },
    {
      key: 'batter',
      label: 'Batter',
      widthPx: 122,
      text: (row) => text(row, 'batter'),
      copies: ['batter_id', 'batter', 'batting_team'],
    },
    mark('opening', 76),
    mark('set', 54),
    mark('gathered', 82),
    { ...mark('closed', 64), text: (row) => text(row, 'closed') },
    {
      key: 'kind',
      label: 'Largest entry',
      word: 'entry',
      widthPx: 176,
      toneOf: kindOf,
      text: (row) => (row.kind === null ? 'none' : `${row.kind} ${row.position} ${text(row, 'defender')}`),
      copies: ['kind', 'position', 'fielder_id', 'defender'],
    },
    amount('outs', 3, 68),
    amount('runs', 2, 62),
    { key: 'grade', label: 'grade', word: 'grade', widthPx: 66, text: (row) => text(row, 'grade') },
  ];
}
