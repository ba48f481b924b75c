import type { Row } from './table/row-source.ts';

/** The kinds of entry that a row of `fielders` or `teams` sums, in the order of a play. */
export const SUM_KINDS = ['placement', 'reach', 'finish', 'turn', 'ground'] as const;
export type SumKind = (typeof SUM_KINDS)[number];
export type Unit = 'runs' | 'outs';

/** 80 % of a normal distribution lie within so many standard errors (method.md 11 gives the errors). */
export const HALF_80 = 1.2815515655446004;

/** A cell as a number; null for an empty one. */
export function numberOf(row: Row, column: string): number | null {
  const value = row[column];
  return typeof value === 'number' ? value : null;
}

export const sumOf = (row: Row, kind: SumKind | 'net', unit: Unit): number => numberOf(row, `${kind}_${unit}`) ?? 0;

/** Half of the 80 % interval of a sum; errors are kept in runs, and outs have theirs in the same proportion. */
export function halfWidthOf(row: Row, kind: SumKind | 'net', unit: Unit): number | null {
  const se = numberOf(row, `${kind}_runs_se`);
  if (se === null) return null;
  if (unit === 'runs') return HALF_80 * se;
  const own = numberOf(row, `${kind}_outs_se`);
  return own === null ? null : HALF_80 * own;
}

/** The kinds that a row's bar is made of. */
export function entriesOf(row: Row, unit: Unit): { readonly kind: SumKind; readonly value: number }[] {
  return SUM_KINDS.map((kind) => ({ kind, value: sumOf(row, kind, unit) }));
}

/** How far from zero an axis must go to hold every row's bar and its net with the interval. */
export function barExtent(rows: readonly Row[], unit: Unit): number {
  let most = 0;
  for (const row of rows) {
    let [gained, lost] = [0, 0];
    for (const { value } of entriesOf(row, unit)) {
      if (value > 0) gained += value;
      else lost -= value;
    }
    most = Math.max(most, gained, lost, Math.abs(sumOf(row, 'net', unit)) + (halfWidthOf(row, 'net', unit) ?? 0));
  }
  return most === 0 ? 1 : most;
}

/** Kinds that matter in these rows: the three of every play, the others where any row has one that shows. */
export function shownKinds(rows: readonly Row[], unit: Unit): SumKind[] {
  return SUM_KINDS.filter((kind, at) => at < 3 || rows.some((row) => Math.abs(sumOf(row, kind, unit)) >= 0.05));
}

/** The row with its sums by 100 chances: rates of what happened. Under one chance a rate says nothing, and there is none. */
export function per100Chances(row: Row): Row {
  const chances = numberOf(row, 'chances') ?? 0;
  const factor = chances >= 1 ? 100 / chances : Number.NaN;
  const rates = Object.entries(row).map(([name, value]) => {
    const isSum = /_(runs|outs|runs_se|outs_se)$/.test(name);
    if (!isSum || typeof value !== 'number') return [name, value] as const;
    const rate = value * factor;
    return [name, Number.isNaN(rate) ? null : rate] as const;
  });
  return Object.fromEntries(rates);
}
