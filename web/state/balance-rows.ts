import { numberOf } from './entry-sums.ts';
import type { Row } from './table/row-source.ts';

const MARKS = ['opening', 'set', 'gathered', 'closed'] as const;
const KINDS = ['placement', 'reach', 'finish', 'turn', 'ground', 'whole'] as const;

/** A season's marks, a row a kind of ball and grade: their sums in outs, and the largest shift that made them agree. */
export function markRows(balance: readonly Row[]): Row[] {
  return pivot(balance, MARKS).map((row) => {
    const shifts = balance
      .filter((each) => each.ball_class === row.ball_class && MARKS.some((mark) => mark === each.mark_or_kind))
      .map((each) => numberOf(each, 'logit_shift'))
      .filter((shift) => shift !== null);
    const largest = shifts.reduce((most, shift) => (Math.abs(shift) > Math.abs(most) ? shift : most), 0);
    return { ...row, largest_shift: shifts.length === 0 ? null : largest };
  });
}

/** A season's entries, a row a kind of ball: the sum over the league of each kind, in outs. Zero is what is wanted. */
export function kindRows(balance: readonly Row[]): Row[] {
  return pivot(balance, KINDS);
}

/** A row a class, a column a name; only classes that have any of the names. */
function pivot(balance: readonly Row[], names: readonly string[]): Row[] {
  const rows = new Map<string, Record<string, string | number | null>>();
  for (const each of balance) {
    const name = String(each.mark_or_kind);
    if (!names.includes(name)) continue;
    const ballClass = String(each.ball_class);
    // Turns are balanced by themselves, with marks of their own.
    if (ballClass.endsWith(', turn')) continue;
    const row = rows.get(ballClass) ?? { ball_class: ballClass, plays: null };
    row[name] = numberOf(each, 'total_outs');
    const plays = numberOf(each, 'plays');
    if (plays !== null) row.plays = Math.max(Number(row.plays ?? 0), plays);
    rows.set(ballClass, row);
  }
  return [...rows.values()];
}
