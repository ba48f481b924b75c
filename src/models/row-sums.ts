import { BASIS_OVERLAP } from '../splines/uniform-basis.ts';
import type { Design } from './design.ts';
import { addPairsToMatrix, addRowPairs, PAIRS_TOUCHED, type PairMargin, pairCount, pairMargin } from './pair-sums.ts';
import { allocateEntries, termEntriesInto } from './row-entries.ts';
import { planSums, type TermPlan } from './sum-plan.ts';
import type { DesignRows } from './term-rows.ts';

/** X'WX (full, width x width) and X'Wz. */
export interface NormalEquations {
  readonly information: Float64Array;
  readonly right: Float64Array;
}

/** Sums over the rows of one group: a term's pairs with itself, and its functions with everything after it. */
interface Level {
  readonly pairs: Float64Array;
  readonly u: Float64Array;
  readonly uBase: number;
  readonly uStride: number;
}

/** What the sums of one term need, made once. */
interface TermSums {
  readonly plan: TermPlan;
  /** Columns after the term: those of later terms, the intercept, the working response. */
  readonly tail: number;
  readonly margins: readonly PairMargin[];
  readonly bins: readonly Int32Array[];
  /** Level 0 is all rows; the deeper ones hold one group each. */
  readonly levels: readonly Level[];
  /** What its rows hold of its own term, and of the terms after it. */
  readonly own: PackedEntries;
  readonly later: PackedEntries;
}

/**
 * Sums of products over the rows of a design. A row of a tensor of d margins touches 4^d coefficients, so row by row
 * the work is 16^d a row. Instead the sums of a term with itself run over pairs of functions margin by margin (pair-sums.ts),
 * and rows that share a bin of the first margins are summed over the other margins first; the group is spread over the
 * first margins' functions once (the array arithmetic of Currie, Durban & Eilers, JRSS B 68(2), 2006, for data that are not
 * on a full grid).
 */
export class RowSums {
  private readonly design: Design;
  private readonly terms: readonly TermSums[];
  /** Sums of every term with those after it: terms in the plans' order, then the intercept, then the working response. */
  private readonly gram: Float64Array;
  private readonly side: number;
  /** Place in the working order of every coefficient of the design. */
  private readonly place: Int32Array;

  constructor(design: Design, rows: DesignRows) {
    this.design = design;
    const plans = planSums(design, rows);
    this.side = design.width + 1;
    this.gram = new Float64Array(this.side * this.side);
    this.place = new Int32Array(design.width);
    this.place[0] = design.width - 1;
    for (const { term, start, width } of plans)
      for (let k = 0; k < width; k += 1) this.place[design.offsets[term] + k] = start + k;
    this.terms = plans.map((plan, p) => this.prepare(plan, plans.slice(p + 1)));
  }

  private prepare(plan: TermPlan, after: readonly TermPlan[]): TermSums {
    const { grouped, inner, rows, start, width } = plan;
    const { side, design } = this;
    const tail = side - start - width;
    const margins = rows.margins.map(pairMargin);
    const pairs = (from: number) => new Float64Array(margins.length === 0 ? width : pairCount(margins.slice(from)));
    const levels: Level[] = [{ pairs: pairs(0), u: this.gram, uBase: start * side + start + width, uStride: side }];
    for (let level = 1; level <= grouped; level += 1)
      levels.push({ pairs: pairs(level), u: new Float64Array(inner[level] * tail), uBase: 0, uStride: tail });
    return {
      plan,
      tail,
      margins,
      bins: rows.margins.map(({ bin }) => bin),
      levels,
      own: packEntries(design, plan, [plan], grouped, start),
      later: packEntries(design, plan, after, 0, start + width),
    };
  }

  /** Sums over all rows with weights `w` and weighted working responses `wz`, one a row. */
  normalEquations(w: Float64Array, wz: Float64Array): NormalEquations {
    this.gram.fill(0);
    for (const term of this.terms) {
      for (const { pairs } of term.levels) pairs.fill(0);
      sumTerm(term, w, wz);
    }
    const { side } = this;
    const corner = (side - 2) * side + side - 2;
    for (let row = 0; row < w.length; row += 1) {
      this.gram[corner] += w[row];
      this.gram[corner + 1] += wz[row];
    }
    return this.inDesignOrder();
  }

  private inDesignOrder(): NormalEquations {
    const { gram, side, place, design } = this;
    const n = design.width;
    const information = new Float64Array(n * n);
    const right = new Float64Array(n);
    for (let i = 0; i < n; i += 1) right[i] = gram[place[i] * side + side - 1];
    const intercept = side - 2;
    information[0] = gram[intercept * side + intercept];
    const blocks = [{ at: 0, width: 1, rank: this.terms.length }].concat(
      this.terms.map(({ plan }, rank) => ({ at: design.offsets[plan.term], width: plan.width, rank })),
    );
    for (const a of blocks)
      for (const b of blocks) {
        if (a.rank >= b.rank) continue;
        for (let i = a.at; i < a.at + a.width; i += 1) {
          const from = place[i] * side + place[b.at];
          for (let j = 0; j < b.width; j += 1) {
            information[i * n + b.at + j] = gram[from + j];
            information[(b.at + j) * n + i] = gram[from + j];
          }
        }
      }
    for (const { plan, margins, levels } of this.terms) {
      const at = design.offsets[plan.term];
      const { pairs } = levels[0];
      if (margins.length > 0) addPairsToMatrix(margins, pairs, information, n, at);
      else for (let k = 0; k < plan.width; k += 1) information[(at + k) * (n + 1)] = pairs[k];
    }
    return { information, right };
  }
}

function sumTerm(term: TermSums, w: Float64Array, wz: Float64Array): void {
  const { plan, tail, margins, bins, levels, own, later } = term;
  const { grouped, order } = plan;
  const bottom = levels[grouped];
  let previous = -1;
  for (let at = 0; at < order.length; at += 1) {
    const row = order[at];
    for (let m = 0; m < grouped; m += 1) {
      if (previous < 0 || bins[m][row] === bins[m][previous]) continue;
      for (let level = grouped - 1; level >= m; level -= 1) flush(term, level, previous);
      break;
    }
    previous = row;
    if (w[row] === 0) continue;
    if (margins.length > 0) addRowPairs(margins, bins, grouped, row, w[row], bottom.pairs, 0);
    else bottom.pairs[own.index[own.start[at]]] += w[row] * own.value[own.start[at]] ** 2;
    addToLater(bottom, w[row], wz[row], own, later, at, tail);
  }
  if (previous >= 0) for (let level = grouped - 1; level >= 0; level -= 1) flush(term, level, previous);
}

/** Spreads the group below `level` over the functions of that level's margin, and empties it. */
function flush({ plan, levels, margins, tail }: TermSums, level: number, row: number): void {
  const { bin: binOf, first, values, basis } = plan.rows.margins[level];
  const { at, value } = margins[level];
  const from = levels[level + 1];
  const to = levels[level];
  const size = plan.inner[level + 1];
  const bin = binOf[row];
  for (let a = 0; a < BASIS_OVERLAP; a += 1) {
    const place = (first[bin] + a) % basis.size;
    const factor = values[bin * BASIS_OVERLAP + a];
    addScaledBlock(to.u, to.uBase + place * size * to.uStride, to.uStride, from.u, size, tail, factor);
  }
  const count = from.pairs.length;
  for (let k = bin * PAIRS_TOUCHED; k < (bin + 1) * PAIRS_TOUCHED; k += 1) {
    const target = at[k] * count;
    const factor = value[k];
    for (let i = 0; i < count; i += 1) to.pairs[target + i] += factor * from.pairs[i];
  }
  from.pairs.fill(0);
  from.u.fill(0);
}

/** to[at + i * stride + j] += factor * from[i * columns + j]. */
function addScaledBlock(
  to: Float64Array,
  at: number,
  stride: number,
  from: Float64Array,
  rows: number,
  columns: number,
  factor: number,
): void {
  let source = 0;
  for (let i = 0; i < rows; i += 1) {
    let target = at + i * stride;
    const end = target + columns;
    for (; target < end; target += 1, source += 1) to[target] += factor * from[source];
  }
}

/** Adds one row: its own entries with the entries of everything after the term. */
function addToLater(
  { u, uBase, uStride }: Level,
  weight: number,
  weighted: number,
  own: PackedEntries,
  later: PackedEntries,
  at: number,
  tail: number,
): void {
  const { index, value } = own;
  const { index: laterIndex, value: laterValue } = later;
  const laterFrom = later.start[at];
  const laterTo = later.start[at + 1];
  for (let a = own.start[at]; a < own.start[at + 1]; a += 1) {
    const factor = weight * value[a];
    const row = uBase + index[a] * uStride;
    for (let e = laterFrom; e < laterTo; e += 1) u[row + laterIndex[e]] += factor * laterValue[e];
    u[row + tail - 2] += factor;
    u[row + tail - 1] += weighted * value[a];
  }
}

/** Entries of rows in a plan's order: those of the row at place k are start[k] .. start[k + 1] - 1. */
interface PackedEntries {
  readonly start: Int32Array;
  readonly index: Int32Array;
  readonly value: Float64Array;
}

/** Entries that `terms` have, over their margins from `fromMargin` on, in the rows of `plan`; numbered from `origin`. */
function packEntries(
  design: Design,
  plan: TermPlan,
  terms: readonly TermPlan[],
  fromMargin: number,
  origin: number,
): PackedEntries {
  const most = terms.reduce((sum, { term }) => {
    const { overlap } = design.terms[term];
    return sum + overlap / BASIS_OVERLAP ** fromMargin;
  }, 0);
  const start = new Int32Array(plan.order.length + 1);
  const entries = allocateEntries(most * plan.order.length);
  let at = 0;
  for (let k = 0; k < plan.order.length; k += 1) {
    for (const { rows, start: first } of terms)
      at = termEntriesInto(rows, plan.order[k], fromMargin, first - origin, entries, at);
    start[k + 1] = at;
  }
  return { start, ...entries };
}
