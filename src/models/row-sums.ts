import { BASIS_OVERLAP } from '../splines/uniform-basis.ts';
import type { Design } from './design.ts';
import { allocateEntries, termEntriesInto } from './row-entries.ts';
import { planSums, type TermPlan } from './sum-plan.ts';
import type { DesignRows } from './term-rows.ts';

/** X'WX (full, width x width) and X'Wz. */
export interface NormalEquations {
  readonly information: Float64Array;
  readonly right: Float64Array;
}

/** Partial sums over the rows of one group: of a term with itself (k), and with everything after it (u). */
interface Level {
  readonly k: Float64Array;
  readonly kBase: number;
  readonly kStride: number;
  readonly u: Float64Array;
  readonly uBase: number;
  readonly uStride: number;
}

/**
 * Sums of products over the rows of a design. A row of a tensor of d margins touches 4^d coefficients, so row by row
 * the work is 16^d a row. Instead rows that share a bin of the first margin are summed over the other margins first, and
 * the group is spread over the first margin's four functions once (the array arithmetic of Currie, Durban & Eilers,
 * JRSS B 68(2), 2006, for data that are not on a full grid).
 */
export class RowSums {
  private readonly design: Design;
  private readonly plans: readonly TermPlan[];
  /** Working matrix: terms in the plans' order, then the intercept, then the working response; upper triangle. */
  private readonly gram: Float64Array;
  private readonly side: number;
  /** Place in the working order of every coefficient of the design. */
  private readonly place: Int32Array;
  /** For each plan, what its rows hold of its own term and of the terms after it. */
  private readonly own: readonly PackedEntries[];
  private readonly later: readonly PackedEntries[];

  constructor(design: Design, rows: DesignRows) {
    this.design = design;
    this.plans = planSums(design, rows);
    this.side = design.width + 1;
    this.gram = new Float64Array(this.side * this.side);
    this.place = new Int32Array(design.width);
    this.place[0] = design.width - 1;
    for (const { term, start, width } of this.plans)
      for (let k = 0; k < width; k += 1) this.place[design.offsets[term] + k] = start + k;
    this.own = this.plans.map((plan) => packEntries(design, plan, [plan], plan.grouped, plan.start));
    this.later = this.plans.map((plan, p) =>
      packEntries(design, plan, this.plans.slice(p + 1), 0, plan.start + plan.width),
    );
  }

  /** Sums over all rows with weights `w` and working responses `z`, one a row. */
  normalEquations(w: Float64Array, z: Float64Array): NormalEquations {
    this.gram.fill(0);
    this.plans.forEach((_, p) => {
      this.sumTerm(p, w, z);
    });
    const { side } = this;
    const intercept = side - 2;
    for (let row = 0; row < w.length; row += 1) {
      this.gram[intercept * side + intercept] += w[row];
      this.gram[intercept * side + intercept + 1] += w[row] * z[row];
    }
    return this.inDesignOrder();
  }

  private sumTerm(p: number, w: Float64Array, z: Float64Array): void {
    const plan = this.plans[p];
    const { grouped, order, rows } = plan;
    const { side } = this;
    const own = this.own[p];
    const later = this.later[p];
    const tail = side - plan.start - plan.width;
    const levels = this.levelsOf(plan, tail);
    const bottom = levels[grouped];
    const groupBins = rows.margins.slice(0, grouped).map((margin) => margin.bin);
    let previous = -1;
    for (let at = 0; at < order.length; at += 1) {
      const row = order[at];
      for (let m = 0; m < grouped; m += 1) {
        if (previous < 0 || groupBins[m][row] === groupBins[m][previous]) continue;
        for (let level = grouped - 1; level >= m; level -= 1) flush(plan, levels, level, previous, tail);
        break;
      }
      previous = row;
      if (w[row] === 0) continue;
      addOuterProduct(bottom, w[row], z[row], own, later, at, tail);
    }
    if (previous >= 0) for (let level = grouped - 1; level >= 0; level -= 1) flush(plan, levels, level, previous, tail);
  }

  /** Level 0 is the working matrix itself; the deeper ones hold one group each. */
  private levelsOf({ grouped, inner, start, width }: TermPlan, tail: number): Level[] {
    const { gram, side } = this;
    const after = start + width;
    const levels: Level[] = [
      { k: gram, kBase: start * side + start, kStride: side, u: gram, uBase: start * side + after, uStride: side },
    ];
    for (let level = 1; level <= grouped; level += 1) {
      const size = inner[level];
      levels.push({
        k: new Float64Array(size * size),
        kBase: 0,
        kStride: size,
        u: new Float64Array(size * tail),
        uBase: 0,
        uStride: tail,
      });
    }
    return levels;
  }

  private inDesignOrder(): NormalEquations {
    const { gram, side, place } = this;
    const n = this.design.width;
    const information = new Float64Array(n * n);
    const right = new Float64Array(n);
    for (let i = 0; i < n; i += 1) {
      const p = place[i];
      right[i] = gram[p * side + side - 1];
      for (let j = 0; j <= i; j += 1) {
        const q = place[j];
        const value = p < q ? gram[p * side + q] : gram[q * side + p];
        information[i * n + j] = value;
        information[j * n + i] = value;
      }
    }
    return { information, right };
  }
}

/** Spreads the group below `level` over the four functions of that level's margin, and empties it. */
function flush(plan: TermPlan, levels: readonly Level[], level: number, row: number, tail: number): void {
  const margin = plan.rows.margins[level];
  const from = levels[level + 1];
  const to = levels[level];
  const size = plan.inner[level + 1];
  const bin = margin.bin[row];
  const { first, values } = margin;
  const functions = margin.basis.size;
  for (let a = 0; a < BASIS_OVERLAP; a += 1) {
    const factor = values[bin * BASIS_OVERLAP + a];
    const placeA = (first[bin] + a) % functions;
    addScaledBlock(to.u, to.uBase + placeA * size * to.uStride, to.uStride, from.u, size, tail, factor);
    for (let b = 0; b < BASIS_OVERLAP; b += 1) {
      const placeB = (first[bin] + b) % functions;
      if (level === 0 && placeB < placeA) continue;
      const both = factor * values[bin * BASIS_OVERLAP + b];
      addScaledBlock(to.k, to.kBase + placeA * size * to.kStride + placeB * size, to.kStride, from.k, size, size, both);
    }
  }
  from.k.fill(0);
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

/** Adds one row: its own entries with each other, and with the entries of everything after the term. */
function addOuterProduct(
  { k, kBase, kStride, u, uBase, uStride }: Level,
  weight: number,
  response: number,
  own: PackedEntries,
  later: PackedEntries,
  at: number,
  tail: number,
): void {
  const { index, value } = own;
  const { index: laterIndex, value: laterValue } = later;
  const ownFrom = own.start[at];
  const ownTo = own.start[at + 1];
  const laterFrom = later.start[at];
  const laterTo = later.start[at + 1];
  for (let a = ownFrom; a < ownTo; a += 1) {
    const factor = weight * value[a];
    const kRow = kBase + index[a] * kStride;
    for (let b = ownFrom; b < ownTo; b += 1) k[kRow + index[b]] += factor * value[b];
    const uRow = uBase + index[a] * uStride;
    for (let e = laterFrom; e < laterTo; e += 1) u[uRow + laterIndex[e]] += factor * laterValue[e];
    u[uRow + tail - 2] += factor;
    u[uRow + tail - 1] += factor * response;
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
