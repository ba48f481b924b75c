import type { BallSpots } from './ball-spots.ts';
import type { Grid } from './contours.ts';
import type { FieldWindow } from './view-box.ts';

const CELL_FT = 6;
/** A bell is cut off beyond so many of its widths. */
const REACH = 3;

/** How thick balls lie, smoothed by a bell of `widthFt`, on a grid over a window; what falls outside is left out. */
export function densityOf(
  { xFt, yFt, weight }: BallSpots,
  { left, right, low, high }: FieldWindow,
  widthFt: number,
): Grid {
  const columns = Math.ceil((right - left) / CELL_FT) + 1;
  const rows = Math.ceil((high - low) / CELL_FT) + 1;
  const counts = new Float64Array(columns * rows);
  for (let k = 0; k < weight.length; k += 1) {
    const column = Math.round((xFt[k]! - left) / CELL_FT);
    const row = Math.round((yFt[k]! - low) / CELL_FT);
    if (column >= 0 && column < columns && row >= 0 && row < rows) counts[row * columns + column]! += weight[k]!;
  }
  const bell = bellOf(widthFt / CELL_FT);
  const across = blurred(counts, rows, columns, columns, 1, bell);
  const values = blurred(across, columns, rows, 1, columns, bell);
  return { values, columns, rows, leftFt: left, lowFt: low, cellFt: CELL_FT };
}

function bellOf(width: number): Float64Array {
  const half = Math.ceil(REACH * width);
  const bell = Float64Array.from({ length: 2 * half + 1 }, (_, k) => Math.exp(-0.5 * ((k - half) / width) ** 2));
  const sum = bell.reduce((total, each) => total + each, 0);
  return bell.map((each) => each / sum);
}

/** `lines` lines of `length` cells: where a line begins is `lineStep` apart, its cells `step` apart. */
function blurred(
  values: Float64Array,
  lines: number,
  length: number,
  lineStep: number,
  step: number,
  bell: Float64Array,
): Float64Array {
  const half = (bell.length - 1) / 2;
  const out = new Float64Array(values.length);
  for (let line = 0; line < lines; line += 1) {
    for (let cell = 0; cell < length; cell += 1) {
      let sum = 0;
      const first = Math.max(0, cell - half);
      const last = Math.min(length - 1, cell + half);
      for (let from = first; from <= last; from += 1)
        sum += bell[from - cell + half]! * values[line * lineStep + from * step]!;
      out[line * lineStep + cell * step] = sum;
    }
  }
  return out;
}

/** The densities within which the given shares of all balls on the grid lie: where they lie thickest. */
export function levelsHolding({ values }: Grid, shares: readonly number[]): number[] {
  const sorted = Float64Array.from(values).sort().reverse();
  const total = sorted.reduce((sum, each) => sum + each, 0);
  return shares.map((share) => {
    let held = 0;
    const level = sorted.find((each) => {
      held += each;
      return held >= share * total;
    });
    return level ?? 0;
  });
}
