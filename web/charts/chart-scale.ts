/** Maps numbers to pixels along one axis. */
export interface Scale {
  readonly min: number;
  readonly max: number;
  readonly at: (value: number) => number;
}

export function linearScale(min: number, max: number, fromPx: number, toPx: number): Scale {
  const span = max - min || 1;
  return { min, max, at: (value) => fromPx + ((value - min) / span) * (toPx - fromPx) };
}

/** The least of 1, 2, 2.5, 5 times a power of ten that is at least `value`; 1 for nothing. */
export function roundUp(value: number): number {
  if (!(value > 0) || !Number.isFinite(value)) return 1;
  const power = 10 ** Math.floor(Math.log10(value));
  const step = [1, 2, 2.5, 5, 10].find((each) => each * power >= value * (1 - 1e-9)) ?? 10;
  return step * power;
}

/** Round numbers from `min` to `max`, about `count` of them. */
export function ticks(min: number, max: number, count: number): number[] {
  const step = roundUp((max - min) / Math.max(1, count));
  const first = Math.ceil(min / step - 1e-9);
  const last = Math.floor(max / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, at) => (first + at) * step || 0);
}

/**
 * An axis for many: as far from zero as all but the outermost twentieth go, and a little farther. What lies beyond runs off
 * the edge, so that one man with five chances does not squeeze everybody else together.
 */
export function commonExtent(values: readonly (number | null)[]): number {
  const sizes = values.filter((value) => value !== null && Number.isFinite(value)).map((value) => Math.abs(value!));
  sizes.sort((a, b) => a - b);
  return 1.15 * (sizes[Math.floor(0.95 * (sizes.length - 1))] ?? 1) || 1;
}

/** The largest absolute value, made round, so that an axis about zero holds all; 1 for none. */
export function extentOf(values: Iterable<number | null>): number {
  let most = 0;
  for (const value of values) if (value !== null && Number.isFinite(value)) most = Math.max(most, Math.abs(value));
  return most === 0 ? 1 : most;
}
