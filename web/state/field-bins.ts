/** What was gained and lost around one spot of the field. */
export interface FieldBin {
  readonly xFt: number;
  readonly yFt: number;
  readonly plays: number;
  readonly runs: number;
}

/** Sums `runs` over squares of `sizeFt`; spots that are not known are left out. Bins lie at the middle of their plays. */
export function binOnField(
  spots: readonly { readonly xFt: number | null; readonly yFt: number | null; readonly runs: number }[],
  sizeFt: number,
): FieldBin[] {
  const bins = new Map<string, { x: number; y: number; plays: number; runs: number }>();
  for (const { xFt, yFt, runs } of spots) {
    if (xFt === null || yFt === null) continue;
    const key = `${Math.floor(xFt / sizeFt)} ${Math.floor(yFt / sizeFt)}`;
    const bin = bins.get(key) ?? { x: 0, y: 0, plays: 0, runs: 0 };
    bin.x += xFt;
    bin.y += yFt;
    bin.plays += 1;
    bin.runs += runs;
    bins.set(key, bin);
  }
  return [...bins.values()].map(({ x, y, plays, runs }) => ({ xFt: x / plays, yFt: y / plays, plays, runs }));
}

export const mean = (values: readonly number[]): number =>
  values.length === 0 ? Number.NaN : values.reduce((sum, value) => sum + value, 0) / values.length;
