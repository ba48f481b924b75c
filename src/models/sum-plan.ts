import { BASIS_OVERLAP } from '../splines/uniform-basis.ts';
import type { Design } from './design.ts';
import { PAIRS_TOUCHED } from './pair-sums.ts';
import type { DesignRows, TermRows } from './term-rows.ts';

/** How the sums of one term with itself and with the terms after it are gathered. */
export interface TermPlan {
  /** Number of the term in the design. */
  readonly term: number;
  readonly rows: TermRows;
  /** Place of the term's first coefficient in the working order. */
  readonly start: number;
  readonly width: number;
  /** Margins that are summed by bin before they are spread over the basis; the others are spread row by row. */
  readonly grouped: number;
  /** Coefficients of the margins from m on: inner[0] = width, inner[last + 1] = 1. */
  readonly inner: readonly number[];
  /** Rows that the term touches, sorted by the bins of the grouped margins. */
  readonly order: Int32Array;
}

/** A copy of a dense number costs about this much of adding one entry somewhere. */
const DENSE_SHARE = 0.5;
/** And handing a group on costs about this many, whatever its size. */
const FLUSH_COST = 100;

/** Terms in the working order: wide products first, terms with one entry a row last. */
export function planSums(design: Design, rows: DesignRows): TermPlan[] {
  const sequence = design.terms
    .map((_, t) => t)
    .sort((a, b) => {
      const products = Number(design.terms[b].bases.length > 0) - Number(design.terms[a].bases.length > 0);
      return products !== 0 ? products : design.terms[b].width - design.terms[a].width || a - b;
    });
  let start = 0;
  let laterEntries = sequence.reduce((sum, t) => sum + design.terms[t].overlap, 2);
  return sequence.map((t) => {
    const { width, overlap, bases } = design.terms[t];
    const term = rows.terms[t];
    laterEntries -= overlap;
    const inner = [1];
    for (let m = bases.length - 1; m >= 0; m -= 1) inner.unshift(inner[0] * bases[m].size);
    if (bases.length === 0) inner[0] = width;
    const sorted = sortByBins(term, rows.count);
    const tail = design.width + 1 - start - width;
    const grouped = cheapestGrouping(term, sorted, inner, laterEntries, tail);
    const plan = { term: t, rows: term, start, width, grouped, inner, order: sorted };
    start += width;
    return plan;
  });
}

/** All rows, those of the widest term first and in the order of its bins. */
export function rowOrder(design: Design, rows: DesignRows): Int32Array {
  let widest = 0;
  design.terms.forEach((term, t) => {
    if (term.bases.length > 0 && (design.terms[widest].bases.length === 0 || term.width > design.terms[widest].width))
      widest = t;
  });
  const order = new Int32Array(rows.count);
  const sorted = design.terms.length > 0 ? sortByBins(rows.terms[widest], rows.count) : order.subarray(0, 0);
  const seen = new Uint8Array(rows.count);
  order.set(sorted);
  for (const row of sorted) seen[row] = 1;
  let at = sorted.length;
  for (let row = 0; row < rows.count; row += 1) if (seen[row] === 0) order[at++] = row;
  return order;
}

function rowsTouched(term: TermRows, count: number): Int32Array {
  const touched = new Int32Array(count);
  let n = 0;
  for (let row = 0; row < count; row += 1)
    if ((term.margins.length > 0 ? term.margins[0].bin[row] : term.index[row]) >= 0) touched[n++] = row;
  return touched.subarray(0, n);
}

/** Rows in the order of the first margin's bins, within those of the second's, and so on (a counting sort a margin). */
function sortByBins(term: TermRows, count: number): Int32Array {
  let order = rowsTouched(term, count);
  for (let m = term.margins.length - 1; m >= 0; m -= 1) {
    const { bin, bins, first, basis } = term.margins[m];
    order = countingSort(order, bins, (row) => bin[row]);
    // Bins are numbered as they were met: knot intervals in order keep what is summed together near in memory.
    order = countingSort(order, basis.size, (row) => first[bin[row]]);
  }
  return order;
}

function countingSort(order: Int32Array, keys: number, keyOf: (row: number) => number): Int32Array {
  const next = new Int32Array(keys + 1);
  for (const row of order) next[keyOf(row) + 1] += 1;
  for (let k = 0; k < keys; k += 1) next[k + 1] += next[k];
  const sorted = new Int32Array(order.length);
  for (const row of order) sorted[next[keyOf(row)]++] = row;
  return sorted;
}

/** The number of leading margins to group by that takes the fewest additions. */
function cheapestGrouping(
  term: TermRows,
  sorted: Int32Array,
  inner: readonly number[],
  laterEntries: number,
  tail: number,
): number {
  const margins = term.margins.length;
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  let flushes = 0;
  for (let grouped = 0; grouped <= margins; grouped += 1) {
    if (grouped > 0) {
      const size = inner[grouped];
      const pairs = size * BASIS_OVERLAP ** (margins - grouped);
      const spread = PAIRS_TOUCHED * pairs + BASIS_OVERLAP * size * tail;
      flushes += countGroups(term, sorted, grouped) * (FLUSH_COST + DENSE_SHARE * spread);
    }
    const left = margins - grouped;
    const cost = sorted.length * (PAIRS_TOUCHED ** left + BASIS_OVERLAP ** left * laterEntries) + flushes;
    if (cost < least) {
      least = cost;
      best = grouped;
    }
  }
  return best;
}

function countGroups(term: TermRows, sorted: Int32Array, grouped: number): number {
  let groups = 0;
  for (let k = 0; k < sorted.length; k += 1) {
    let changed = k === 0;
    for (let m = 0; m < grouped && !changed; m += 1)
      changed = term.margins[m].bin[sorted[k]] !== term.margins[m].bin[sorted[k - 1]];
    if (changed) groups += 1;
  }
  return groups;
}
