/** Standard deviation of replicates: the standard error of what they replicate. NaN when one is NaN. */
export function standardErrorOf(replicates: Float64Array): number {
  let mean = 0;
  for (const value of replicates) mean += value;
  mean /= replicates.length;
  let squares = 0;
  for (const value of replicates) squares += (value - mean) ** 2;
  return Math.sqrt(squares / (replicates.length - 1));
}

export interface Interval80 {
  readonly lo80: number;
  readonly hi80: number;
}

/** The middle 80 % of replicates. NaN when one is NaN. Sorts a copy. */
export function middle80(replicates: Float64Array): Interval80 {
  const sorted = replicates.slice().sort();
  return { lo80: quantileOfSorted(sorted, 0.1), hi80: quantileOfSorted(sorted, 0.9) };
}

/** Quantile of sorted numbers, on the straight line between neighbours; NaN when there are none or one is NaN. */
export function quantileOfSorted(sorted: Float64Array, p: number): number {
  // NaN sorts to the end.
  if (sorted.length === 0 || Number.isNaN(sorted[sorted.length - 1])) return Number.NaN;
  const place = p * (sorted.length - 1);
  const below = Math.floor(place);
  const above = Math.min(below + 1, sorted.length - 1);
  const part = place - below;
  // Neighbours may both be infinite.
  if (part === 0 || sorted[below] === sorted[above]) return sorted[below];
  return sorted[below] + part * (sorted[above] - sorted[below]);
}

/** Share of replicates above zero, ties half: how sure one may be, as far as the luck of games goes. NaN when one is NaN. */
export function shareAboveZero(replicates: Float64Array): number {
  let above = 0;
  for (const value of replicates) {
    if (Number.isNaN(value)) return Number.NaN;
    above += value > 0 ? 1 : value === 0 ? 0.5 : 0;
  }
  return above / replicates.length;
}
