import { BASIS_OVERLAP } from '../splines/uniform-basis.ts';
import type { Design } from './design.ts';
import {
  addPairSums,
  addPairsToMatrix,
  addRowPairs,
  PAIRS_TOUCHED,
  type PairMargin,
  pairCount,
  pairMargin,
} from './pair-sums.ts';
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
  const { plan, margins, bins, levels } = term;
  const { grouped, order } = plan;
  let from = 0;
  for (let at = 1; at <= order.length; at += 1) {
    // The outermost of the grouped margins whose bin changes here.
    let changed = at === order.length ? 0 : grouped;
    for (let m = 0; m < changed; m += 1) if (bins[m][order[at]] !== bins[m][order[at - 1]]) changed = m;
    if (changed === grouped && at < order.length) continue;
    sumGroup(term, levels[grouped], from, at, w, wz);
    for (let level = grouped - 1; level >= changed; level -= 1) flush(term, level, order[at - 1]);
    from = at;
  }
  if (margins.length > 0) addInterceptColumn(term);
}

/** Sums the rows of one group, places from..to - 1 of the order, over the margins that are not grouped. */
function sumGroup(
  { plan, tail, margins, bins, own, later }: TermSums,
  bottom: Level,
  from: number,
  to: number,
  w: Float64Array,
  wz: Float64Array,
): void {
  const { grouped, order } = plan;
  const { pairs, u, uBase, uStride } = bottom;
  const { index, value } = own;
  const z = uBase + tail - 1;
  if (margins.length === 0) {
    for (let at = from; at < to; at += 1) {
      const weight = w[order[at]];
      const k = own.start[at];
      pairs[index[k]] += weight * value[k] * value[k];
      u[z - 1 + index[k] * uStride] += weight * value[k];
    }
  } else if (margins.length === grouped + 1) {
    const bin = bins[grouped];
    const pairAt = margins[grouped].at;
    const pairValue = margins[grouped].value;
    for (let at = from; at < to; at += 1) {
      const row = order[at];
      const weight = w[row];
      const first = bin[row] * PAIRS_TOUCHED;
      for (let k = first; k < first + PAIRS_TOUCHED; k += 1) pairs[pairAt[k]] += weight * pairValue[k];
    }
  } else {
    for (let at = from; at < to; at += 1) addRowPairs(margins, bins, grouped, order[at], w[order[at]], pairs, 0);
  }
  for (let at = from; at < to; at += 1) {
    const weighted = wz[order[at]];
    for (let a = own.start[at]; a < own.start[at + 1]; a += 1) u[z + index[a] * uStride] += weighted * value[a];
  }
  if (later.index.length === 0) return;
  for (let at = from; at < to; at += 1) {
    const weight = w[order[at]];
    for (let a = own.start[at]; a < own.start[at + 1]; a += 1) {
      const factor = weight * value[a];
      const row = uBase + index[a] * uStride;
      for (let e = later.start[at]; e < later.start[at + 1]; e += 1) u[row + later.index[e]] += factor * later.value[e];
    }
  }
}

/** The functions of a smooth or tensor sum to one where it adds anything, so its sums with the intercept are those of its pairs. */
function addInterceptColumn({ tail, margins, levels }: TermSums): void {
  const { pairs, u, uBase, uStride } = levels[0];
  addPairSums(margins, pairs, u, uBase + tail - 2, uStride);
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
