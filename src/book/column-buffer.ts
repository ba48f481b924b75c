import { isoDateOf } from '../numeric/days.ts';
import { type Column, type ColumnType, EMPTY_BOOLEAN } from './store.ts';

/** Reads a text that lies outside its vector, in the engine's own memory. */
export type ReadOutside = (pointerCell: ArrayBufferLike, byteOffset: number, byteCount: number) => Uint8Array;

/** Collects one column of a streamed result, chunk after chunk. */
export interface ColumnBuffer {
  /** Takes the first `count` cells of a vector's bytes; `validity` has a bit per row, null when every row is filled. */
  take(bytes: Uint8Array, validity: Uint8Array | null, count: number): void;
  finish(): Column;
}

const FIRST_CAPACITY = 4096;
/** The engine keeps a text of up to 12 bytes in its 16-byte cell, a longer one behind a pointer at byte 8. */
const TEXT_CELL_BYTES = 16;
const INLINE_TEXT_BYTES = 12;

function isEmpty(validity: Uint8Array, row: number): boolean {
  return (validity[row >> 3]! & (1 << (row & 7))) === 0;
}

type Numbers = Float64Array | Int32Array | Uint8Array;

function withCapacity<T extends Numbers>(values: T, needed: number): T {
  if (needed <= values.length) return values;
  const grown = new (values.constructor as new (length: number) => T)(Math.max(needed, values.length * 2));
  grown.set(values);
  return grown;
}

/** Cells are copied out at once: a vector's memory goes back to the engine with its chunk. */
export function doubleBuffer(name: string): ColumnBuffer {
  let values = new Float64Array(FIRST_CAPACITY);
  let length = 0;
  return {
    take(bytes, validity, count) {
      values = withCapacity(values, length + count);
      values.set(new Float64Array(bytes.buffer, bytes.byteOffset, count), length);
      if (validity !== null) {
        for (let row = 0; row < count; row++) if (isEmpty(validity, row)) values[length + row] = Number.NaN;
      }
      length += count;
    },
    finish: () => ({ name, type: 'double', values: values.slice(0, length) }),
  };
}

/** Whole numbers: an Int32Array until the first empty cell is met, a Float64Array with NaN from then on. */
export function integerBuffer(name: string): ColumnBuffer {
  let values: Int32Array | Float64Array = new Int32Array(FIRST_CAPACITY);
  let length = 0;
  return {
    take(bytes, validity, count) {
      values = withCapacity(values, length + count);
      values.set(new Int32Array(bytes.buffer, bytes.byteOffset, count), length);
      if (validity !== null) {
        for (let row = 0; row < count; row++) {
          if (!isEmpty(validity, row)) continue;
          if (values instanceof Int32Array) values = new Float64Array(values);
          values[length + row] = Number.NaN;
        }
      }
      length += count;
    },
    finish: () => ({ name, type: 'integer', values: values.slice(0, length) }),
  };
}

export function booleanBuffer(name: string): ColumnBuffer {
  let values = new Uint8Array(FIRST_CAPACITY);
  let length = 0;
  return {
    take(bytes, validity, count) {
      values = withCapacity(values, length + count);
      values.set(bytes.subarray(0, count), length);
      if (validity !== null) {
        for (let row = 0; row < count; row++) if (isEmpty(validity, row)) values[length + row] = EMPTY_BOOLEAN;
      }
      length += count;
    },
    finish: () => ({ name, type: 'boolean', values: values.slice(0, length) }),
  };
}

export function textBuffer(name: string, readOutside: ReadOutside): ColumnBuffer {
  const values: (string | null)[] = [];
  return {
    take(bytes, validity, count) {
      const cells = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
      for (let row = 0; row < count; row++) {
        if (validity !== null && isEmpty(validity, row)) {
          values.push(null);
          continue;
        }
        const cell = row * TEXT_CELL_BYTES;
        const byteCount = cells.readUInt32LE(cell);
        if (byteCount <= INLINE_TEXT_BYTES) {
          values.push(cells.toString('utf8', cell + 4, cell + 4 + byteCount));
        } else {
          const outside = readOutside(bytes.buffer, bytes.byteOffset + cell + 8, byteCount);
          values.push(Buffer.from(outside.buffer, outside.byteOffset, byteCount).toString('utf8'));
        }
      }
    },
    finish: () => ({ name, type: 'text', values }),
  };
}

export function dateBuffer(name: string): ColumnBuffer {
  const values: (string | null)[] = [];
  const known = new Map<number, string>();
  return {
    take(bytes, validity, count) {
      const days = new Int32Array(bytes.buffer, bytes.byteOffset, count);
      for (let row = 0; row < count; row++) {
        if (validity !== null && isEmpty(validity, row)) {
          values.push(null);
          continue;
        }
        const day = days[row]!;
        let text = known.get(day);
        if (text === undefined) {
          text = isoDateOf(day);
          known.set(day, text);
        }
        values.push(text);
      }
    },
    finish: () => ({ name, type: 'date', values }),
  };
}

/** The buffer for a column of one of the project's own types. */
export function bufferFor(name: string, type: ColumnType, readOutside: ReadOutside): ColumnBuffer {
  switch (type) {
    case 'double':
      return doubleBuffer(name);
    case 'integer':
      return integerBuffer(name);
    case 'boolean':
      return booleanBuffer(name);
    case 'date':
      return dateBuffer(name);
    case 'text':
      return textBuffer(name, readOutside);
  }
}
