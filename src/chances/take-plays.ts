import type { ClassPlays } from './class-plays.ts';

type Numbers = Float64Array | Int32Array | Uint16Array | Uint8Array;

/** Some of the plays of a class, by their numbers, in the order given; `row` still points into the same table. */
export function takePlays<Plays extends ClassPlays>(plays: Plays, kept: Int32Array): Plays {
  const columns = Object.entries(plays).map(([name, column]) => [
    name,
    ArrayBuffer.isView(column) ? take(column as Numbers, plays.count, kept) : column,
  ]);
  return { ...Object.fromEntries(columns), count: kept.length };
}

/** A column holds one number a play, or as many for each. */
function take(column: Numbers, count: number, kept: Int32Array): Numbers {
  const width = count === 0 ? 0 : column.length / count;
  const out = new (column.constructor as new (length: number) => Numbers)(kept.length * width);
  kept.forEach((at, k) => {
    for (let i = 0; i < width; i += 1) out[k * width + i] = column[at * width + i];
  });
  return out;
}

/** Numbers of the plays of one fold, and of all others. */
export function splitAt(fold: Uint8Array, held: number): { readonly held: Int32Array; readonly others: Int32Array } {
  const all = Int32Array.from(fold.keys());
  return { held: all.filter((at) => fold[at] === held), others: all.filter((at) => fold[at] !== held) };
}
