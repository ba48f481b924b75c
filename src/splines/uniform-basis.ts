/**
 * Cubic B-splines on equally spaced knots (Eilers & Marx, Statistical Science 11(2), 1996). A basis over [lo, hi] in
 * `segments` equal pieces has `segments + 3` functions, which sum to one everywhere; four are non-zero at any point.
 */
export interface UniformBasis {
  readonly lo: number;
  readonly hi: number;
  readonly segments: number;
  /** segments + 3 */
  readonly size: number;
}

/** How many functions are non-zero at a point. */
export const BASIS_OVERLAP = 4;

export function uniformBasis(lo: number, hi: number, segments: number): UniformBasis {
  if (!(lo < hi)) throw new RangeError(`a basis needs lo < hi, received ${lo} and ${hi}`);
  if (!Number.isInteger(segments) || segments < 1)
    throw new RangeError(`a basis needs 1 or more segments, received ${segments}`);
  return { lo, hi, segments, size: segments + 3 };
}

/**
 * Writes the four non-zero values at `x` into `values[at..at+3]` and returns the index of the first function.
 * Outside [lo, hi] the value at the nearer end is used: a surface is never extrapolated.
 */
export function basisRowInto(basis: UniformBasis, x: number, values: Float64Array, at: number): number {
  const position = ((x - basis.lo) / (basis.hi - basis.lo)) * basis.segments;
  const clamped = position <= 0 ? 0 : position >= basis.segments ? basis.segments : position;
  const first = clamped >= basis.segments ? basis.segments - 1 : Math.floor(clamped);
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
