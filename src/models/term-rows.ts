import { BASIS_OVERLAP, basisRowInto, type UniformBasis } from '../splines/uniform-basis.ts';
import type { CompiledTerm } from './compile-term.ts';
import { type Covariates, checkCovariates, type Design } from './design.ts';
import type { Margin } from './terms.ts';
import { termMargins } from './terms.ts';

/** The rows of a data set along one margin: each row points at a bin, each bin holds the four values of the basis there. */
export interface MarginRows {
  readonly basis: UniformBasis;
  readonly bins: number;
  /** Bin of each row; -1 where the term adds nothing. */
  readonly bin: Int32Array;
  readonly first: Int32Array;
  /** Four a bin. */
  readonly values: Float64Array;
  /** The farthest that a row was moved to its bin's place, in units of the covariate; 0 when nothing was rounded. */
  readonly farthestMove: number;
}

/** The rows of a data set as one term sees them: margins, or else a single entry a row. */
export interface TermRows {
  readonly margins: readonly MarginRows[];
  /** Coefficient of the single entry; -1 where the term adds nothing. */
  readonly index: Int32Array;
  readonly value: Float64Array;
}

export interface DesignRows {
  readonly count: number;
  readonly terms: readonly TermRows[];
}

/** A margin with no more different values than this keeps each of them, whatever the bin width. */
const MOST_OWN_BINS = 400;

const NO_INDEX = new Int32Array(0);
const NO_VALUE = new Float64Array(0);

/**
 * Looks covariates up in the bases. With `binsPerSegment` above 0 each margin is cut into that many equal bins a knot
 * interval, and every row of a bin is taken to lie at the mean of the bin's rows; with 0 nothing is rounded.
 * Throws RangeError when a covariate is missing or of another length.
 */
export function termRows(design: Design, covariates: Covariates, count: number, binsPerSegment: number): DesignRows {
  checkCovariates(design, covariates, count);
  return { count, terms: design.terms.map((term) => rowsOfTerm(term, covariates, count, binsPerSegment)) };
}

function rowsOfTerm(compiled: CompiledTerm, covariates: Covariates, count: number, binsPerSegment: number): TermRows {
  const { term } = compiled;
  const margins = termMargins(term);
  if (margins.length === 0) return singleRows(compiled, covariates[compiled.covariates[0]], count);
  const by = 'by' in term ? term.by : undefined;
  const included = new Uint8Array(count).fill(1);
  for (let row = 0; row < count; row += 1) {
    if (by !== undefined && covariates[by.covariate][row] !== by.level) included[row] = 0;
    for (const { covariate } of margins) if (Number.isNaN(covariates[covariate][row])) included[row] = 0;
  }
  return {
    margins: margins.map((margin, m) =>
      marginRows(compiled.bases[m], margin, covariates[margin.covariate], included, binsPerSegment),
    ),
    index: NO_INDEX,
    value: NO_VALUE,
  };
}

function singleRows({ term, width }: CompiledTerm, column: ArrayLike<number>, count: number): TermRows {
  const index = new Int32Array(count).fill(-1);
  const value = new Float64Array(count);
  for (let row = 0; row < count; row += 1) {
    const x = column[row];
    if (term.kind === 'linear') {
      if (Number.isNaN(x)) continue;
      index[row] = 0;
      value[row] = x - term.centre;
    } else {
      const level = term.kind === 'factor' ? x - 1 : x;
      if (!(level >= 0)) continue;
      if (!(level < width) || !Number.isInteger(level))
        throw new RangeError(`levels of ${term.kind} term are whole numbers below ${width + x - level}, received ${x}`);
      index[row] = level;
      value[row] = 1;
    }
  }
  return { margins: [], index, value };
}

function marginRows(
  basis: UniformBasis,
  margin: Margin,
  column: ArrayLike<number>,
  included: Uint8Array,
  binsPerSegment: number,
): MarginRows {
  const own = ownBins(column, included);
  if (own !== null) return { basis, ...own, ...basisAt(basis, own.places), farthestMove: 0 };
  if (binsPerSegment === 0) {
    const bin = Int32Array.from(included, (yes, row) => (yes === 1 ? row : -1));
    return { basis, bins: bin.length, bin, ...basisAt(basis, Float64Array.from(column)), farthestMove: 0 };
  }
  const bins = basis.segments * binsPerSegment;
  const bin = new Int32Array(column.length).fill(-1);
  const rows = new Int32Array(bins);
  const places = new Float64Array(bins);
  const period = margin.hi - margin.lo;
  const inside = (x: number) => {
    if (basis.cyclic) return x - period * Math.floor((x - margin.lo) / period);
    return x <= margin.lo ? margin.lo : x >= margin.hi ? margin.hi : x;
  };
  for (let row = 0; row < column.length; row += 1) {
    if (included[row] === 0) continue;
    const x = inside(column[row]);
    const at = Math.min(Math.floor(((x - margin.lo) / period) * bins), bins - 1);
    bin[row] = at;
    rows[at] += 1;
    places[at] += x;
  }
  for (let at = 0; at < bins; at += 1)
    places[at] = rows[at] > 0 ? places[at] / rows[at] : margin.lo + ((at + 0.5) * period) / bins;
  let farthestMove = 0;
  for (let row = 0; row < column.length; row += 1)
    if (bin[row] >= 0) farthestMove = Math.max(farthestMove, Math.abs(inside(column[row]) - places[bin[row]]));
  return { basis, bins, bin, ...basisAt(basis, places), farthestMove };
}

/** A bin for every different value, in the order of first sight; null when there are more than MOST_OWN_BINS. */
function ownBins(
  column: ArrayLike<number>,
  included: Uint8Array,
): { bins: number; bin: Int32Array; places: Float64Array } | null {
  const numbers = new Map<number, number>();
  const bin = new Int32Array(column.length).fill(-1);
  for (let row = 0; row < column.length; row += 1) {
    if (included[row] === 0) continue;
    let at = numbers.get(column[row]);
    if (at === undefined) {
      if (numbers.size === MOST_OWN_BINS) return null;
      at = numbers.size;
      numbers.set(column[row], at);
    }
    bin[row] = at;
  }
  return { bins: numbers.size, bin, places: Float64Array.from(numbers.keys()) };
}

function basisAt(basis: UniformBasis, places: Float64Array): { first: Int32Array; values: Float64Array } {
  const first = new Int32Array(places.length);
  const values = new Float64Array(places.length * BASIS_OVERLAP);
  for (let at = 0; at < places.length; at += 1) first[at] = basisRowInto(basis, places[at], values, at * BASIS_OVERLAP);
  return { first, values };
}
