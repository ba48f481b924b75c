import { type Grounders, INFIELD_SIZE } from '../grounders.ts';

/** Some of the grounders, by their numbers, in the order given; `row` still points into the same table. */
export function takeGrounders(grounders: Grounders, kept: Int32Array): Grounders {
  const codes = (column: Uint8Array) => Uint8Array.from(kept, (at) => column[at]);
  const numbers = (column: Float64Array) => Float64Array.from(kept, (at) => column[at]);
  const places = (column: Int32Array) => Int32Array.from(kept, (at) => column[at]);
  const width = 2 * INFIELD_SIZE;
  const starts = new Float64Array(kept.length * width);
  kept.forEach((at, k) => {
    starts.set(grounders.starts.subarray(at * width, (at + 1) * width), k * width);
  });
  return {
    table: grounders.table,
    count: kept.length,
    men: grounders.men,
    row: places(grounders.row),
    season: places(grounders.season),
    bearingDeg: numbers(grounders.bearingDeg),
    sinBearing: numbers(grounders.sinBearing),
    cosBearing: numbers(grounders.cosBearing),
    exitSpeedMph: numbers(grounders.exitSpeedMph),
    launchAngleDeg: numbers(grounders.launchAngleDeg),
    surface: codes(grounders.surface),
    batterToFirstS: numbers(grounders.batterToFirstS),
    state: codes(grounders.state),
    starts,
    grade: codes(grounders.grade),
    closed: codes(grounders.closed),
    flags: Uint16Array.from(kept, (at) => grounders.flags[at]),
  };
}

/** Numbers of the grounders of one fold, and of all others. */
export function splitAt(fold: Uint8Array, held: number): { readonly held: Int32Array; readonly others: Int32Array } {
  const all = Int32Array.from(fold.keys());
  return { held: all.filter((at) => fold[at] === held), others: all.filter((at) => fold[at] !== held) };
}
