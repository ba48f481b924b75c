/**
 * What the demo league knows and the tables hide. Rows of plays are those of the league's PlayTable; people are indexes
 * into `personIds`, -1 nobody.
 */
export interface LeagueTruth {
  readonly seed: number;
  readonly personIds: readonly string[];
  /** SKILL_STRIDE numbers a person, in the order of SKILL_NAMES (physics/men.ts). */
  readonly skills: Float64Array;
  /** The same for the average man of each position by outs played (index position * SKILL_STRIDE; 0 is unused). */
  readonly averageSkills: Float64Array;
  /** Home to first, seconds, a person. */
  readonly homeToFirstS: Float64Array;
  /** 1 for a left-handed batter, a person. */
  readonly batsLeft: Uint8Array;
  /** Placement habit in words by club. */
  readonly habits: readonly { readonly team: string; readonly habit: string }[];
  readonly balls: TruthBalls;
  readonly levels: SkillLevels;
}

/** Every ball as it left the bat, the men and where they stood, without holes. */
export interface TruthBalls {
  readonly exitSpeedMph: Float64Array;
  readonly launchAngleDeg: Float64Array;
  readonly bearingDeg: Float64Array;
  readonly kickDeg: Float64Array;
  readonly hop: Float64Array;
  /** Codes of SURFACES and BALL_KINDS. */
  readonly surface: Uint8Array;
  readonly kind: Uint8Array;
  readonly outs: Uint8Array;
  readonly bases: Uint8Array;
  readonly batter: Int32Array;
  /** Three a play: on first, second, third. */
  readonly runners: Int32Array;
  /** Nine a play. */
  readonly fielders: Int32Array;
  readonly startXFt: Float64Array;
  readonly startYFt: Float64Array;
}

/** One row a person and infield position that he played. */
export interface SkillLevels {
  readonly person: Int32Array;
  readonly position: Uint8Array;
  /** Extra gathers per 100 average chances against an average man, over the standard balls from the usual starts. */
  readonly trueReach: Float64Array;
  /** Extra outs per 100 gathers against an average man, over the standard gathers. */
  readonly trueFinish: Float64Array;
}

export function allocateBalls(count: number): TruthBalls {
  const numbers = (n = 1) => new Float64Array(count * n);
  const codes = () => new Uint8Array(count);
  const people = (n: number) => new Int32Array(count * n).fill(-1);
  return {
    exitSpeedMph: numbers(),
    launchAngleDeg: numbers(),
    bearingDeg: numbers(),
    kickDeg: numbers(),
    hop: numbers(),
    surface: codes(),
    kind: codes(),
    outs: codes(),
    bases: codes(),
    batter: people(1),
    runners: people(3),
    fielders: people(9),
    startXFt: numbers(9),
    startYFt: numbers(9),
  };
}

/** Cuts every column to `count` plays. */
export function trimColumns<T extends object>(table: T, count: number, capacity: number): T {
  const cut: Record<string, unknown> = {};
  for (const [name, column] of Object.entries(table)) {
    const long = ArrayBuffer.isView(column) || (Array.isArray(column) && column.length >= capacity);
    const each = long ? (column as Float64Array).length / capacity : 0;
    cut[name] = long ? (column as Float64Array).slice(0, count * each) : column;
  }
  return cut as T;
}
