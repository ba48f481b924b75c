/** What stands before the pitch, apart from the nine men: the same object is filled again for every play. */
export interface Situation {
  /** 0 to 2. */
  outs: number;
  /** Bits ON_FIRST, ON_SECOND, ON_THIRD. */
  bases: number;
  /** Code of SURFACES. */
  surface: number;
  /** Code of BALL_KINDS. */
  kind: number;
  /** Home-to-first times in seconds of the batter and of the runners on first, second, third (NaN: nobody). */
  readonly legsS: Float64Array;
}

/** How one play ended. `to` is where batter and runners went: -1 nobody there, 0 out, 1 to 3 a base, 4 home. */
export interface Outcome {
  touchedBy: number;
  gatheredBy: number;
  gatherTimeS: number;
  gatherXFt: number;
  gatherYFt: number;
  /** Code of BASES. */
  throwTo: number;
  outsMade: number;
  /** Code of RESULTS. */
  result: number;
  readonly to: Int8Array;
}

export function allocateSituation(): Situation {
  return { outs: 0, bases: 0, surface: 1, kind: 0, legsS: new Float64Array(4).fill(Number.NaN) };
}

export function allocateOutcome(): Outcome {
  return {
    touchedBy: 0,
    gatheredBy: 0,
    gatherTimeS: Number.NaN,
    gatherXFt: Number.NaN,
    gatherYFt: Number.NaN,
    throwTo: 0,
    outsMade: 0,
    result: 0,
    to: new Int8Array(4),
  };
}
