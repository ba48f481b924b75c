import type { DesignRows, MarginRows, TermRows } from './term-rows.ts';

/** Rows that no term can tell apart, taken together. */
export interface MergedRows {
  readonly rows: DesignRows;
  /** Mean response and total weight of each merged row. */
  readonly response: Float64Array;
  readonly weight: Float64Array;
  /** Merged row of each row. */
  readonly cell: Int32Array;
}

/** Merging is worth its bookkeeping when it leaves at most this share of the rows. */
const WORTHWHILE_SHARE = 0.8;
const PROBE_ROWS = 4096;
const MOST_SINGLE_VALUES = 1024;

/**
 * Merges rows with the same bins in every term; responses are averaged by weight, so that for the exponential families the
 * score and the information stay what they were. Null when there would be little to gain.
 */
export function mergeRows(
  rows: DesignRows,
  response: ArrayLike<number>,
  weight: ArrayLike<number> | undefined,
): MergedRows | null {
  const columns = rows.terms.flatMap(cellColumns);
  const cells = columns.reduce((product, column) => product * (column.bins + 1), 1);
  if (!(cells < Number.MAX_SAFE_INTEGER)) return null;
  const numbers = new CellNumbers(rows.count);
  const merged = new Int32Array(rows.count);
  const examples: number[] = [];
  for (let row = 0; row < rows.count; row += 1) {
    let cell = 0;
    for (let c = 0; c < columns.length; c += 1) cell = cell * (columns[c].bins + 1) + columns[c].bin[row] + 1;
    const at = numbers.numberOf(cell);
    if (at === examples.length) examples.push(row);
    merged[row] = at;
    if (row === PROBE_ROWS && examples.length > 0.98 * PROBE_ROWS && rows.count < 32 * PROBE_ROWS) return null;
  }
  if (examples.length > WORTHWHILE_SHARE * rows.count) return null;
  const total = new Float64Array(examples.length);
  const sum = new Float64Array(examples.length);
  for (let row = 0; row < rows.count; row += 1) {
    const w = weight === undefined ? 1 : weight[row];
    total[merged[row]] += w;
    sum[merged[row]] += w * response[row];
  }
  const kept = Int32Array.from(examples);
  return {
    rows: pickRows(rows, kept),
    response: sum.map((value, at) => (total[at] > 0 ? value / total[at] : response[kept[at]])),
    weight: total,
    cell: merged,
  };
}

/** Numbers cells in the order of first sight: an open-addressed table of whole numbers below 2^53. */
class CellNumbers {
  private readonly mask: number;
  private readonly cells: Float64Array;
  private readonly numbers: Int32Array;
  private count = 0;

  constructor(most: number) {
    let size = 16;
    while (size < 2 * most) size *= 2;
    this.mask = size - 1;
    this.cells = new Float64Array(size);
    this.numbers = new Int32Array(size).fill(-1);
  }

  numberOf(cell: number): number {
    // The lower bits decide where the search begins, the upper ones are folded in.
    const folded = (cell % 0x100000000) ^ Math.imul((cell / 0x100000000) | 0, 0x85ebca6b);
    let at = (Math.imul(folded, 0x9e3779b1) >>> 7) & this.mask;
    while (this.numbers[at] >= 0) {
      if (this.cells[at] === cell) return this.numbers[at];
      at = (at + 1) & this.mask;
    }
    this.cells[at] = cell;
    this.numbers[at] = this.count;
    this.count += 1;
    return this.count - 1;
  }
}

/** What tells the rows of a term apart, as small whole numbers. */
function cellColumns(term: TermRows): { bins: number; bin: Int32Array }[] {
  if (term.margins.length > 0) return [...term.margins];
  const numbers = new Map<string, number>();
  const bin = new Int32Array(term.index.length);
  for (let row = 0; row < bin.length; row += 1) {
    const key = `${term.index[row]} ${term.value[row]}`;
    let at = numbers.get(key);
    if (at === undefined) {
      if (numbers.size === MOST_SINGLE_VALUES) return [{ bins: Number.MAX_SAFE_INTEGER, bin }];
      at = numbers.size;
      numbers.set(key, at);
    }
    bin[row] = at;
  }
  return [{ bins: numbers.size, bin }];
}

/** Rows by number, in the order given. */
export function pickRows({ terms }: DesignRows, kept: Int32Array): DesignRows {
  return { count: kept.length, terms: terms.map((term) => pickTermRows(term, kept)) };
}

function pickTermRows(term: TermRows, kept: Int32Array): TermRows {
  const margins = term.margins.map((margin): MarginRows => ({ ...margin, bin: pickCodes(margin.bin, kept) }));
  if (margins.length > 0) return { ...term, margins };
  return { margins, index: pickCodes(term.index, kept), value: pickNumbers(term.value, kept) };
}

/** Plain loops: `from` with a function takes several times as long. */
export function pickNumbers(column: Float64Array, kept: Int32Array): Float64Array {
  const picked = new Float64Array(kept.length);
  for (let k = 0; k < kept.length; k += 1) picked[k] = column[kept[k]];
  return picked;
}

function pickCodes(column: Int32Array, kept: Int32Array): Int32Array {
  const picked = new Int32Array(kept.length);
  for (let k = 0; k < kept.length; k += 1) picked[k] = column[kept[k]];
  return picked;
}
