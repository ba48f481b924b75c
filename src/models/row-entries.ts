import { BASIS_OVERLAP } from '../splines/uniform-basis.ts';
import type { MarginRows, TermRows } from './term-rows.ts';

/** Scratch for the entries of one row or one term: coefficient numbers and values. */
export interface Entries {
  readonly index: Int32Array;
  readonly value: Float64Array;
}

export function allocateEntries(most: number): Entries {
  return { index: new Int32Array(most), value: new Float64Array(most) };
}

/**
 * Writes a term's entries of one row from place `at` on, coefficient numbers moved by `offset`, over the margins from
 * `fromMargin` on alone. Returns the next free place.
 */
export function termEntriesInto(
  term: TermRows,
  row: number,
  fromMargin: number,
  offset: number,
  entries: Entries,
  at: number,
): number {
  const { margins } = term;
  if (margins.length === 0) {
    if (term.index[row] < 0) return at;
    entries.index[at] = offset + term.index[row];
    entries.value[at] = term.value[row];
    return at + 1;
  }
  if (margins[0].bin[row] < 0) return at;
  entries.index[at] = 0;
  entries.value[at] = 1;
  let written = 1;
  for (let m = fromMargin; m < margins.length; m += 1) {
    spreadOverMargin(margins[m], row, entries, at, written);
    written *= BASIS_OVERLAP;
  }
  for (let k = at; k < at + written; k += 1) entries.index[k] += offset;
  return at + written;
}

/** Backwards, so that each entry is spread into four before it is overwritten. */
function spreadOverMargin(margin: MarginRows, row: number, entries: Entries, at: number, written: number): void {
  const { index, value } = entries;
  const bin = margin.bin[row];
  const { size } = margin.basis;
  const first = margin.first[bin];
  const from = bin * BASIS_OVERLAP;
  for (let entry = written - 1; entry >= 0; entry -= 1) {
    const base = index[at + entry] * size;
    const factor = value[at + entry];
    for (let k = BASIS_OVERLAP - 1; k >= 0; k -= 1) {
      const function_ = first + k;
      index[at + entry * BASIS_OVERLAP + k] = base + (function_ >= size ? function_ - size : function_);
      value[at + entry * BASIS_OVERLAP + k] = factor * margin.values[from + k];
    }
  }
}
