/** Small integer codes for the words of the data contract, so that columns of plays can be typed arrays. */

/** Ball kinds in code order: the code is the index. */
export const BALL_KINDS = ['ground', 'liner', 'fly', 'popup', 'bunt'] as const;
export type BallKind = (typeof BALL_KINDS)[number];

/** Results in code order. */
export const RESULTS = ['out', 'single', 'double', 'triple', 'home_run', 'error', 'fielders_choice'] as const;
export type Result = (typeof RESULTS)[number];

/** Batter's sides in code order. */
export const SIDES = ['L', 'R'] as const;
export type Side = (typeof SIDES)[number];

/** Surfaces in code order; 0 means not recorded. */
export const SURFACES = ['', 'grass', 'turf'] as const;

/** Target bases in code order; 0 means no throw recorded. */
export const BASES = ['', '1B', '2B', '3B', 'home'] as const;

/** Scorekeeper's position numbers. 0 stands for "nobody" in columns that name a position. */
export const POSITIONS = [1, 2, 3, 4, 5, 6, 7, 8, 9] as const;
export const POSITION_COUNT = 9;

/** The four infielders whose starts move with the ball and batter; pitcher and catcher start from fixed places. */
export const MOVABLE_INFIELD = [3, 4, 5, 6] as const;

/** Everybody who may gather a grounder before it is through the infield. */
export const INFIELD = [1, 2, 3, 4, 5, 6] as const;

/** Bits of the `bases` column: which bases are occupied before the play. */
export const ON_FIRST = 1;
export const ON_SECOND = 2;
export const ON_THIRD = 4;
