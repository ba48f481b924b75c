import { dayOf } from '../numeric/days.ts';
import { type Column, type ColumnType, EMPTY_BOOLEAN } from './store.ts';

/** One chunk's cells of one number column, ready to be copied into the engine's vector. */
export interface EncodedCells {
  readonly bytes: Uint8Array;
  /** A bit a row, 0 for an empty cell; null when no cell is empty. */
  readonly validity: Uint8Array | null;
}

export const CELL_BYTES: Record<Exclude<ColumnType, 'text'>, number> = { double: 8, integer: 4, date: 4, boolean: 1 };

/** Marks row `row` empty in `validity`, which is made (all filled) when the first empty cell is met. */
function markEmpty(validity: Uint8Array | null, row: number, count: number): Uint8Array {
  const mask = validity ?? new Uint8Array(Math.ceil(count / 64) * 8).fill(255);
  mask[row >> 3] = mask[row >> 3]! & ~(1 << (row & 7));
  return mask;
}

function wrongKind(column: Column): Error {
  return new TypeError(`Column ${column.name} of type ${column.type} got a ${column.values.constructor.name}.`);
}

/**
 * Cells `start` to `start + count` of a column that is not text. They are copied, because the engine refuses memory
 * that is shared between threads.
 * @throws TypeError when the values are not of a kind that the type allows (store.ts)
 */
export function encodeCells(column: Column, start: number, count: number): EncodedCells {
  const { values, type } = column;
  let validity: Uint8Array | null = null;
  if (type === 'double') {
    if (!(values instanceof Float64Array || values instanceof Int32Array)) throw wrongKind(column);
    const cells = Float64Array.from(values.subarray(start, start + count));
    for (let row = 0; row < count; row++) if (Number.isNaN(cells[row]!)) validity = markEmpty(validity, row, count);
    return { bytes: new Uint8Array(cells.buffer), validity };
  }
  if (type === 'integer') {
    if (Array.isArray(values)) throw wrongKind(column);
    const numbers = (values as Int32Array | Float64Array | Uint8Array).subarray(start, start + count);
    const cells = Int32Array.from(numbers);
    if (numbers instanceof Float64Array) {
      for (let row = 0; row < count; row++) {
        if (Number.isNaN(numbers[row]!)) validity = markEmpty(validity, row, count);
        else if (cells[row] !== numbers[row]) {
          throw new RangeError(`Column ${column.name} wants whole numbers of 32 bits and got ${numbers[row]}.`);
        }
      }
    }
    return { bytes: new Uint8Array(cells.buffer), validity };
  }
  if (type === 'boolean') {
    if (!(values instanceof Uint8Array)) throw wrongKind(column);
    const cells = Uint8Array.from(values.subarray(start, start + count));
    for (let row = 0; row < count; row++) {
      if (cells[row] === EMPTY_BOOLEAN) validity = markEmpty(validity, row, count);
      cells[row] = cells[row] === 1 ? 1 : 0;
    }
    return { bytes: cells, validity };
  }
  if (type !== 'date' || !Array.isArray(values)) throw wrongKind(column);
  const cells = new Int32Array(count);
  for (let row = 0; row < count; row++) {
    const text = values[start + row] as string | null;
    if (text === null) {
      validity = markEmpty(validity, row, count);
      continue;
    }
    const day = dayOf(text);
    if (!Number.isInteger(day)) throw new RangeError(`Column ${column.name} wants a date YYYY-MM-DD and got ${text}.`);
    cells[row] = day;
  }
  return { bytes: new Uint8Array(cells.buffer), validity };
}

/** Where the texts of a chunk are null. */
export function emptyTexts(values: readonly (string | null)[], start: number, count: number): Uint8Array | null {
  let validity: Uint8Array | null = null;
  for (let row = 0; row < count; row++) if (values[start + row] === null) validity = markEmpty(validity, row, count);
  return validity;
}

/** Every cell of a chunk empty, for a column that was not given. */
export function allEmpty(count: number): Uint8Array {
  return new Uint8Array(Math.ceil(count / 64) * 8);
}
