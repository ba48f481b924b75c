/** Values at the corners of square cells, rows from the lowest. */
export interface Grid {
  readonly values: Float64Array;
  readonly columns: number;
  readonly rows: number;
  /** Spot of the first value, and how far apart they are, feet. */
  readonly leftFt: number;
  readonly lowFt: number;
  readonly cellFt: number;
}

/** Ends of an edge of a cell, by corner: 0 lower left, 1 lower right, 2 upper right, 3 upper left. */
const EDGES = [
  [0, 1],
  [1, 2],
  [2, 3],
  [3, 0],
] as const;

/**
 * Where the values are above a level: closed rings, x and y in turn, feet (marching squares; the line crosses an edge where the
 * level lies between its ends). Beyond the grid everything counts as below.
 */
export function contourRings(grid: Grid, level: number): number[][] {
  const { columns, rows } = grid;
  const next = new Map<string, { readonly key: string; readonly x: number; readonly y: number }>();
  const points = new Map<string, { readonly x: number; readonly y: number }>();
  for (let row = -1; row < rows; row += 1) {
    for (let column = -1; column < columns; column += 1) {
      const corners = [
        { column, row },
        { column: column + 1, row },
        { column: column + 1, row: row + 1 },
        { column, row: row + 1 },
      ].map((corner) => ({ ...corner, value: valueAt(grid, corner.column, corner.row) }));
      const crossings = EDGES.flatMap(([a, b]) => {
        const [from, to] = [corners[a]!, corners[b]!];
        if (from.value > level === to.value > level) return [];
        return [{ ...crossingOf(grid, from, to, level), leaves: from.value > level }];
      });
      // Anticlockwise round the cell, a line goes from where the inside is left to where it is entered.
      const middle = corners.reduce((sum, { value }) => sum + value, 0) / 4;
      const step = crossings.length === 4 && middle <= level ? 3 : 1;
      crossings.forEach((crossing, k) => {
        points.set(crossing.key, crossing);
        if (crossing.leaves) next.set(crossing.key, crossings[(k + step) % crossings.length]!);
      });
    }
  }
  return ringsOf(next, points);
}

function valueAt({ values, columns, rows }: Grid, column: number, row: number): number {
  return column < 0 || row < 0 || column >= columns || row >= rows ? 0 : values[row * columns + column]!;
}

interface Corner {
  readonly column: number;
  readonly row: number;
  readonly value: number;
}

function crossingOf({ leftFt, lowFt, cellFt }: Grid, a: Corner, b: Corner, level: number) {
  // Two cells share an edge and have to name it alike.
  const [from, to] = a.row < b.row || (a.row === b.row && a.column < b.column) ? [a, b] : [b, a];
  const share = (level - from.value) / (to.value - from.value);
  return {
    key: `${from.column},${from.row},${to.column},${to.row}`,
    x: leftFt + cellFt * (from.column + share * (to.column - from.column)),
    y: lowFt + cellFt * (from.row + share * (to.row - from.row)),
  };
}

function ringsOf(
  next: Map<string, { readonly key: string }>,
  points: ReadonlyMap<string, { readonly x: number; readonly y: number }>,
): number[][] {
  const rings: number[][] = [];
  for (const start of next.keys()) {
    const ring: number[] = [];
    for (let key: string | undefined = start; key !== undefined && next.has(key); ) {
      const { x, y } = points.get(key)!;
      ring.push(x, y);
      const after: string | undefined = next.get(key)?.key;
      next.delete(key);
      key = after;
    }
    if (ring.length >= 6) rings.push(ring);
  }
  return rings;
}
