/**
 * All plays as columns. Row order is fixed by the reader (season, then play id), so that nothing computed from a table
 * depends on the order in which files were written. Every typed column has length `count`; the three columns of starts
 * have length `count * 9`, nine positions a play (index `play * 9 + position - 1`).
 * A number that was not recorded is NaN; an unrecorded code is 0 (see diamond/play-codes.ts), an unrecorded name -1.
 */
export interface PlayTable {
  readonly count: number;
  readonly playId: readonly string[];
  /** Names behind the integer columns below; `people` serves batters, pitchers and fielders. */
  readonly games: readonly string[];
  readonly parks: readonly string[];
  readonly teams: readonly string[];
  readonly people: readonly string[];
  /** Index into `games`. */
  readonly game: Int32Array;
  readonly season: Int32Array;
  /** Days since 1970-01-01. */
  readonly date: Int32Array;
  /** Index into `parks`, -1 unknown. */
  readonly park: Int32Array;
  /** Code of SURFACES. */
  readonly surface: Uint8Array;
  readonly inning: Uint8Array;
  readonly outsBefore: Uint8Array;
  /** Bits ON_FIRST, ON_SECOND, ON_THIRD. */
  readonly bases: Uint8Array;
  /** Index into `teams`. */
  readonly battingTeam: Int32Array;
  readonly fieldingTeam: Int32Array;
  /** Index into `people`, -1 unknown. */
  readonly batter: Int32Array;
  readonly pitcher: Int32Array;
  /** Code of SIDES. */
  readonly batterSide: Uint8Array;
  /** Code of BALL_KINDS. */
  readonly ballKind: Uint8Array;
  readonly exitSpeedMph: Float64Array;
  readonly launchAngleDeg: Float64Array;
  readonly bearingDeg: Float64Array;
  readonly landingXFt: Float64Array;
  readonly landingYFt: Float64Array;
  readonly hangTimeS: Float64Array;
  /** Position numbers, 0 for nobody. */
  readonly touchedBy: Uint8Array;
  readonly gatheredBy: Uint8Array;
  readonly gatherXFt: Float64Array;
  readonly gatherYFt: Float64Array;
  readonly gatherTimeS: Float64Array;
  /** Code of BASES. */
  readonly throwTo: Uint8Array;
  readonly outsMade: Uint8Array;
  /** Code of RESULTS. */
  readonly result: Uint8Array;
  /** 1 when somebody watched who gathered the ball, 0 when only the result is known (method.md 9, grade `whole`). */
  readonly gatherSeen: Uint8Array;
  /** Home to first in seconds as recorded for the play, else from `people`, else NaN. */
  readonly batterToFirstS: Float64Array;
  readonly runsScored: Float64Array;
  readonly runsRestOfInning: Float64Array;
  /** Index into `people`, -1 unknown; nine a play. */
  readonly fielder: Int32Array;
  /** Feet in the project's frame, NaN when not seen; nine a play. */
  readonly startXFt: Float64Array;
  readonly startYFt: Float64Array;
}

/** Writable twin of PlayTable, for the code that fills one. */
export type PlayTableDraft = {
  -readonly [K in keyof PlayTable]: PlayTable[K] extends readonly string[] ? string[] : PlayTable[K];
};

/** An empty table of `count` plays: numbers NaN, codes 0, names -1, gatherSeen 1. */
export function allocatePlayTable(count: number): PlayTableDraft {
  const numbers = () => new Float64Array(count).fill(Number.NaN);
  const codes = () => new Uint8Array(count);
  const names = () => new Int32Array(count).fill(-1);
  return {
    count,
    playId: new Array<string>(count).fill(''),
    games: [],
    parks: [],
    teams: [],
    people: [],
    game: names(),
    season: new Int32Array(count),
    date: new Int32Array(count),
    park: names(),
    surface: codes(),
    inning: codes(),
    outsBefore: codes(),
    bases: codes(),
    battingTeam: names(),
    fieldingTeam: names(),
    batter: names(),
    pitcher: names(),
    batterSide: codes(),
    ballKind: codes(),
    exitSpeedMph: numbers(),
    launchAngleDeg: numbers(),
    bearingDeg: numbers(),
    landingXFt: numbers(),
    landingYFt: numbers(),
    hangTimeS: numbers(),
    touchedBy: codes(),
    gatheredBy: codes(),
    gatherXFt: numbers(),
    gatherYFt: numbers(),
    gatherTimeS: numbers(),
    throwTo: codes(),
    outsMade: codes(),
    result: codes(),
    gatherSeen: codes().fill(1),
    batterToFirstS: numbers(),
    runsScored: numbers(),
    runsRestOfInning: numbers(),
    fielder: new Int32Array(count * 9).fill(-1),
    startXFt: new Float64Array(count * 9).fill(Number.NaN),
    startYFt: new Float64Array(count * 9).fill(Number.NaN),
  };
}
