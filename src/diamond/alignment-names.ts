/**
 * Names of infield shapes (vocabulary: alignment) in order of precedence: the first that fits is the name. What changes
 * most comes first. An overshift changes who stands where, at whatever depth; infield in gives up reach everywhere for the
 * throw home, corners in at two places for a bunt; double-play depth and guarding give up a few steps; shading only turns
 * the infield. Left is the third-base side, as seen from home.
 */
export const ALIGNMENT_NAMES = [
  'overshift',
  'infield in',
  'corners in',
  'double-play depth',
  'guarding the lines',
  'shaded left',
  'shaded right',
  'straight-up',
] as const;
export type AlignmentName = (typeof ALIGNMENT_NAMES)[number];

/**
 * Where one alignment ends and the next begins. The words are the trade's, which draws no lines between them: the numbers
 * are this project's choice (docs/decisions/030-alignment-names.md), settings and not facts. Feet are from home plate
 * unless they say otherwise. All are the same for both sides, so that a mirrored infield has the mirrored name.
 */
export interface AlignmentSettings {
  /** Infield in: both middle infielders stand at most this deep. */
  readonly middleInFt: number;
  /** Corners in: both corner infielders stand at most this deep. */
  readonly cornerInFt: number;
  /** Double-play depth: the middle infielders stand at most this deep, on average of the two... */
  readonly doublePlayDepthFt: number;
  /** ...and at most this far from second base, on average of the two. */
  readonly doublePlayFromSecondFt: number;
  /** Guarding the lines: both corner infielders stand at most this far from their foul lines. */
  readonly guardLineFt: number;
  /** Straight-up against a left-handed batter: mean bearing of the middle infielders, degrees; the negative against a right-handed one. */
  readonly straightUpPullDeg: number;
  /** Shaded: their mean bearing differs from straight-up by at least this, degrees. */
  readonly shadeDeg: number;
}

export const ALIGNMENT_SETTINGS: AlignmentSettings = {
  // Midway between the edge of the grass by the base line (about 110 ft) and double-play depth (about 137 ft).
  middleInFt: 123,
  // Midway between a corner man's usual 118 ft and 92 ft, level with the bags, where he waits for a bunt.
  cornerInFt: 105,
  // Two steps in from the usual 148 ft, not quite midway to 137 ft: the next condition asks for the rest.
  doublePlayDepthFt: 143,
  // Usual is 38 ft; from 34 ft a man is at the bag in time to take a throw from the far side.
  doublePlayFromSecondFt: 34,
  // A long step and a dive: no ball gets between him and the line.
  guardLineFt: 16,
  // The middle men lean about five feet to the side the batter pulls to, and that is still called straight-up.
  straightUpPullDeg: 2,
  // Three steps, 7.8 ft at 148 ft: less is within a man's own scatter from pitch to pitch.
  shadeDeg: 3,
};
