import type { EntryKind } from '../../src/ledger/entry-kinds.ts';
import { signed } from '../state/number-text.ts';

/** A place on the axis. */
export interface MarkRow {
  readonly type: 'mark';
  readonly name: string;
  readonly note: string;
  readonly value: number;
  /** Under outs, where chances stand too, and under runs. */
  readonly outsText: string;
  readonly runsText: string;
  /** Where the value is an estimate: its 80 % interval. */
  readonly interval?: readonly [number, number];
  /** Another value to compare it with, drawn broken. */
  readonly before?: number;
}

/** A rise or fall from one place to another. */
export interface StepRow {
  readonly type: 'step';
  readonly kind: EntryKind;
  readonly who: string;
  readonly from: number;
  readonly to: number;
  readonly outs: number;
  readonly runs: number;
}

export interface Stairs {
  readonly rows: readonly (MarkRow | StepRow)[];
  readonly low: number;
  readonly high: number;
  readonly ticks: readonly { readonly value: number; readonly text: string }[];
}

export interface StairEntry {
  readonly kind: EntryKind;
  readonly who: string;
  readonly outs: number;
  readonly runs: number;
}

/** A play's marks; null for one that its grade does not have. */
export interface StairMarks {
  readonly opening: number;
  readonly set: number | null;
  readonly gathered: number | null;
  readonly closed: number;
}

/** What each mark knows, by its name. */
export type MarkNotes = Readonly<Record<keyof StairMarks, string>>;

/** Entries smaller than this would be steps of nothing; they are summed up in one. */
const SHOWN_OUTS = 0.0005;

/**
 * A play as a staircase from opening to closed. The entries of a kind come in the order given; turns, which are no part of
 * the way, are left out.
 */
export function playStairs(marks: StairMarks, entries: readonly StairEntry[], notes: MarkNotes): Stairs {
  const rows: (MarkRow | StepRow)[] = [markRow('opening', marks.opening, notes.opening)];
  let at = marks.opening;
  const flights: readonly (readonly [readonly EntryKind[], keyof StairMarks])[] = [
    [['placement'], 'set'],
    [['reach', 'ground'], 'gathered'],
    [['finish', 'whole'], 'closed'],
  ];
  for (const [kinds, name] of flights) {
    for (const entry of kinds.flatMap((kind) => summedUp(entries.filter((each) => each.kind === kind)))) {
      rows.push({ type: 'step', ...entry, from: at, to: at + entry.outs });
      at += entry.outs;
    }
    const value = marks[name];
    if (value === null) continue;
    rows.push(markRow(name, value, notes[name]));
    // Steps add up to the marks; what rounding leaves is not carried on.
    at = value;
  }
  return { rows, ...chanceAxis(rows) };
}

/** A play with other starts: only as far as the set mark, beside the set mark that it had. */
export function trialStairs(
  marks: Pick<StairMarks, 'opening'> & { readonly set: number; readonly setBefore: number },
  placements: readonly StairEntry[],
  notes: Pick<MarkNotes, 'opening' | 'set'>,
): Stairs {
  const whole = { ...marks, gathered: null, closed: 0 };
  const { rows } = playStairs(whole, placements, { ...notes, gathered: '', closed: '' });
  const known = rows
    .slice(0, -1)
    .map((row) => (row.type === 'mark' && row.name === 'set' ? { ...row, before: marks.setBefore } : row));
  return { rows: known, ...chanceAxis(known) };
}

/** Sums of a season in runs, from zero, where an average defence would stand, to the net. */
export function sumStairs(
  sums: readonly StairEntry[],
  net: { readonly outs: number; readonly runs: number; readonly interval?: readonly [number, number] },
): Stairs {
  let at = 0;
  const steps = sums
    .filter(({ outs, runs }) => outs !== 0 || runs !== 0)
    .map((sum): StepRow => {
      const from = at;
      at += sum.runs;
      return { type: 'step', ...sum, from, to: at };
    });
  const rows: (MarkRow | StepRow)[] = [
    { type: 'mark', name: 'average', note: 'same balls, average men', value: 0, outsText: '0', runsText: '0' },
    ...steps,
    {
      type: 'mark',
      name: 'net',
      note: net.interval === undefined ? '' : '80 % interval',
      value: net.runs,
      outsText: signedTenth(net.outs),
      runsText: signedTenth(net.runs),
      ...(net.interval === undefined ? {} : { interval: net.interval }),
    },
  ];
  const ends = endsOf(rows);
  const step = roundStep(Math.max(...ends) - Math.min(...ends));
  const low = Math.floor(Math.min(...ends) / step) * step;
  const high = Math.max(Math.ceil(Math.max(...ends) / step) * step, low + step);
  const ticks = [];
  for (let k = Math.round(low / step); k <= Math.round(high / step); k += 1) {
    ticks.push({ value: k * step, text: k === 0 ? '0' : signText(k, String(Number(Math.abs(k * step).toFixed(2)))) });
  }
  return { rows, low, high, ticks };
}

/** The staircase in words, for those who do not see it. */
export function stairWords({ rows }: Stairs, outsDecimals = 3, runsDecimals = 2): string {
  return rows
    .map((row) =>
      row.type === 'mark'
        ? `${row.name} ${row.outsText} ${row.runsText}`.trim()
        : `${row.kind} ${row.who} ${signed(row.outs, outsDecimals)} outs, ${signed(row.runs, runsDecimals)} runs`,
    )
    .join('; ');
}

function markRow(name: string, value: number, note: string): MarkRow {
  return { type: 'mark', name, note, value, outsText: chanceText(value, 3), runsText: '' };
}

function chanceText(value: number, decimals: number): string {
  if (value === 0 || value === 1) return String(value);
  return value.toFixed(decimals).replace(/^0/, '');
}

function signText(sign: number, text: string): string {
  return `${sign < 0 ? '−' : '+'}${text}`;
}

function signedTenth(value: number): string {
  const text = Math.abs(value).toFixed(1);
  return Number(text) === 0 ? text : signText(value, text);
}

/** The entries that can be seen, and the others in one. */
function summedUp(entries: readonly StairEntry[]): readonly StairEntry[] {
  const shown = entries.filter(({ outs }) => Math.abs(outs) >= SHOWN_OUTS);
  const rest = entries.filter(({ outs }) => Math.abs(outs) < SHOWN_OUTS);
  const outs = rest.reduce((sum, entry) => sum + entry.outs, 0);
  if (Math.abs(outs) < SHOWN_OUTS) return shown;
  const runs = rest.reduce((sum, entry) => sum + entry.runs, 0);
  return [...shown, { kind: rest[0]!.kind, who: `${rest.length} others`, outs, runs }];
}

function endsOf(rows: readonly (MarkRow | StepRow)[]): number[] {
  return rows.flatMap((row) => (row.type === 'step' ? [row.from, row.to] : [row.value, ...(row.interval ?? [])]));
}

function chanceAxis(rows: readonly (MarkRow | StepRow)[]): Omit<Stairs, 'rows'> {
  const ends = endsOf(rows);
  const ticks = [0, 0.25, 0.5, 0.75, 1].map((value) => ({ value, text: chanceText(value, value === 0.5 ? 1 : 2) }));
  return { low: Math.min(0, ...ends), high: Math.max(1, ...ends), ticks };
}

/** A round step of an axis with some five of them. */
function roundStep(span: number): number {
  if (!(span > 0)) return 1;
  const power = 10 ** Math.floor(Math.log10(span / 5));
  return [1, 2, 5, 10].map((times) => times * power).find((step) => step >= span / 5)!;
}
