import { againstEvenWords, wayToBallWords } from '../../../src/ledger/play-words.ts';
import type { Explanation } from '../../api/plays.ts';
import { numberOf } from '../../state/entry-sums.ts';
import { chance, signed } from '../../state/number-text.ts';
import type { Row } from '../../state/table/row-source.ts';
import type { TableColumn } from '../../table/table-column.ts';
import type { TrialState } from './trial.svelte.ts';

/** Under this a chance is none in print. */
const SEEN = 0.0005;

/** A man of a play, and whether he had anything to do with it. */
export interface ManRow {
  readonly position: number;
  readonly hasPart: boolean;
  readonly row: Row;
}

const known = (value: number) => (Number.isNaN(value) ? null : value);

/** A row a man, in the order in which they come to the ball; with moved starts what the marks say to those. */
export function menRows(
  explanation: Explanation,
  trial: TrialState | null,
  nameOf: (position: number) => string,
): ManRow[] {
  const isMoved = trial !== null && trial.moves.size > 0;
  const men =
    trial === null
      ? explanation.defenders.map((each) => ({ ...each, placementOuts: null, placementRuns: null }))
      : trial.trial.men;
  return men.map((man) => {
    const entries = explanation.entries.filter(({ position, kind }) => position === man.position && kind !== 'turn');
    const of = (kind: string) => entries.find((entry) => entry.kind === kind)?.outs ?? null;
    const sum = (what: 'outs' | 'runs') => entries.reduce((total, entry) => total + entry[what], 0);
    const was = isMoved ? trial.ownMan(man.position) : undefined;
    // What happened belongs to where they did stand.
    const happened = <T>(value: T) => (isMoved ? null : value);
    return {
      position: man.position,
      hasPart: man.reach >= SEEN || entries.some(({ outs }) => Math.abs(outs) >= SEEN),
      row: {
        play_id: explanation.playId,
        position: man.position,
        name: nameOf(man.position),
        way_ft: known(Number.isNaN(man.gapFt) ? Math.hypot(man.runInFt, man.runAcrossFt) : Math.abs(man.gapFt)),
        way: wayToBallWords(man),
        time_s: known(man.arrivalS),
        chance: known(man.reach),
        chance_was: was === undefined ? null : known(was.reach),
        set_without_him: known(man.setWithoutHim),
        placement_outs: man.placementOuts ?? of('placement'),
        placement_outs_was: was?.placementOuts ?? null,
        placement_runs: man.placementRuns,
        reach_outs: happened(of('reach')),
        finish_outs: happened(of('finish')),
        net_outs: happened(sum('outs')),
        net_runs: happened(sum('runs')),
        start_x_ft: known(man.startXFt),
        start_y_ft: known(man.startYFt),
        even_x_ft: known(man.evenXFt),
        even_y_ft: known(man.evenYFt),
        off_even_ft: known(Math.hypot(man.startXFt - man.evenXFt, man.startYFt - man.evenYFt)),
        against_even: againstEvenWords(man),
      },
    };
  });
}

interface Shown {
  readonly onGround: boolean;
  readonly isMoved: boolean;
  readonly onChoose: (position: number) => void;
}

export function menColumns({ onGround, isMoved, onChoose }: Shown): TableColumn[] {
  const number = (key: string, label: string, widthPx: number, more: Partial<TableColumn> = {}): TableColumn => ({
    key,
    label,
    widthPx,
    isNumber: true,
    text: (row) => signed(numberOf(row, key), 3),
    ...more,
  });
  const share = (key: string, label: string, widthPx: number, more: Partial<TableColumn> = {}) =>
    number(key, label, widthPx, { text: (row) => chance(numberOf(row, key)), ...more });
  const asPlayed: TableColumn[] = [
    number('reach_outs', 'reach', 68, { word: 'reach', tone: 'reach' }),
    ...(onGround ? [number('finish_outs', 'finish', 68, { word: 'finish', tone: 'finish' })] : []),
    number('net_outs', 'net outs', 76, { word: 'net', isStrong: true }),
    number('net_runs', 'net runs', 76, {
      word: 'net',
      isStrong: true,
      text: (row) => signed(numberOf(row, 'net_runs'), 2),
    }),
  ];
  const asTried: TableColumn[] = [
    number('placement_outs_was', 'it was', 68, { tone: 'placement' }),
    number('placement_runs', 'runs', 64, { text: (row) => signed(numberOf(row, 'placement_runs'), 2) }),
  ];
  return [
    {
      key: 'position',
      label: 'Defender',
      widthPx: 176,
      text: (row) => `${row.position} ${row.name}`,
      onPress: (row) => onChoose(Number(row.position)),
      copies: ['play_id', 'position', 'name'],
    },
    {
      key: 'way_ft',
      label: onGround ? 'Ball passes' : 'His run',
      widthPx: 140,
      text: (row) => String(row.way),
      copies: ['way'],
    },
    number('time_s', 'Time he had', 78, {
      text: (row) => (numberOf(row, 'time_s') === null ? '' : `${numberOf(row, 'time_s')!.toFixed(2)} s`),
    }),
    share('chance', 'His chance', 76, { word: 'chance' }),
    ...(isMoved ? [share('chance_was', 'it was', 68)] : []),
    share('set_without_him', 'Set without him', 108, { word: 'set' }),
    number('placement_outs', 'placement', 96, { word: 'placement', tone: 'placement' }),
    ...(isMoved ? asTried : asPlayed),
    {
      key: 'off_even_ft',
      label: 'Against the even spot',
      word: 'even spot',
      widthPx: 232,
      text: (row) => String(row.against_even),
      copies: ['start_x_ft', 'start_y_ft', 'even_x_ft', 'even_y_ft'],
    },
  ];
}
