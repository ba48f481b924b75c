/** Starts that are not the play's own, by index of position, in tenths of a foot: as fine as anybody can place a man. */
export type Moves = ReadonlyMap<number, readonly [xFt: number, yFt: number]>;

/** Tenths, so that an address says exactly what was asked. */
export function tenths(feet: number): number {
  return Math.round(feet * 10) / 10;
}

/** `6_-325_1392*4_120_1500`: position, x and y in tenths of a foot. Empty for none. */
export function movesText(moves: Moves): string {
  return [...moves]
    .sort(([a], [b]) => a - b)
    .map(([position, [x, y]]) => [position, Math.round(x * 10), Math.round(y * 10)].join('_'))
    .join('*');
}

/** What movesText wrote; parts that say nothing of a man who moves are passed over. */
export function readMoves(text: string | undefined, movable: readonly number[]): Moves {
  const moves = new Map<number, readonly [number, number]>();
  for (const part of (text ?? '').split('*')) {
    const match = /^([1-9])_(-?\d{1,4})_(-?\d{1,4})$/.exec(part);
    if (match === null) continue;
    const [position, x, y] = match.slice(1).map(Number) as [number, number, number];
    if (movable.includes(position - 1)) moves.set(position, [x / 10, y / 10]);
  }
  return moves;
}
