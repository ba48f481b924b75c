/**
 * Cubic B-splines on equally spaced knots (Eilers & Marx, Statistical Science 11(2), 1996). A basis over [lo, hi] in
 * `segments` equal pieces has `segments + 3` functions, which sum to one everywhere; four are non-zero at any point.
 * A cyclic basis joins `hi` to `lo` and has `segments` functions: function k and function k + segments are one.
 */
export interface UniformBasis {
  readonly lo: number;
  readonly hi: number;
  readonly segments: number;
  readonly cyclic: boolean;
  /** segments + 3, or segments when cyclic. */
  readonly size: number;
}

/** How many functions are non-zero at a point. */
export const BASIS_OVERLAP = 4;

/** Throws RangeError unless lo < hi and there is at least one segment (four in a cyclic basis). */
export function uniformBasis(lo: number, hi: number, segments: number, cyclic = false): UniformBasis {
  if (!(lo < hi)) throw new RangeError(`a basis needs lo < hi, received ${lo} and ${hi}`);
  const fewest = cyclic ? BASIS_OVERLAP : 1;
  if (!Number.isInteger(segments) || segments < fewest)
    throw new RangeError(`a ${cyclic ? 'cyclic ' : ''}basis needs ${fewest} or more segments, received ${segments}`);
  return { lo, hi, segments, cyclic, size: cyclic ? segments : segments + 3 };
}

/**
 * Writes the four non-zero values at `x` into `values[at..at+3]` and returns the number of the first function; the others
 * follow it, in a cyclic basis modulo its size. Outside [lo, hi] the value at the nearer end is used (a surface is never
 * extrapolated); a cyclic basis goes round instead.
 */
export function basisRowInto(basis: UniformBasis, x: number, values: Float64Array, at: number): number {
  const { segments } = basis;
  let position = ((x - basis.lo) / (basis.hi - basis.lo)) * segments;
  if (basis.cyclic) position -= segments * Math.floor(position / segments);
  const clamped = position <= 0 ? 0 : position >= segments ? segments : position;
  const first = clamped >= segments ? segments - 1 : Math.floor(clamped);
  const u = clamped - first;
  const v = 1 - u;
  const u2 = u * u;
  const u3 = u2 * u;
  values[at] = (v * v * v) / 6;
  values[at + 1] = (3 * u3 - 6 * u2 + 4) / 6;
  values[at + 2] = (-3 * u3 + 3 * u2 + 3 * u + 1) / 6;
  values[at + 3] = u3 / 6;
  return first;
}
