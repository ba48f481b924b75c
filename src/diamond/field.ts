/**
 * The field in the project's frame: feet, origin at the back point of home plate, +y over second base, +x toward first.
 * Distances are those of the Official Baseball Rules, 2.01.
 */

export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Side of the infield square (OBR 2.01). */
export const BASE_PATH_FT = 90;

/** Rear point of home plate to the nearer edge of the pitcher's plate: 60 ft 6 in (OBR 2.01). */
export const PITCHERS_PLATE_FT = 60.5;

/** Radius of the infield's outer arc about the middle of the pitcher's plate; from memory, drawings differ. */
export const INFIELD_ARC_FT = 95;

/** The mound: a circle 18 ft across whose centre is 59 ft from the rear point of home plate (OBR 2.01). */
export const MOUND_CENTRE_FT = 59;
export const MOUND_RADIUS_FT = 9;

/** Width of home plate's front edge, 17 in (OBR 2.02). */
export const HOME_PLATE_WIDTH_FT = 17 / 12;

const HALF_DIAGONAL_FT = BASE_PATH_FT / Math.SQRT2;

/** Corners of the square by base number, 1 to 3; 4 is home. Index 0 is unused. */
export const BASE_SPOTS: readonly Spot[] = [
  { x: Number.NaN, y: Number.NaN },
  { x: HALF_DIAGONAL_FT, y: HALF_DIAGONAL_FT },
  { x: 0, y: 2 * HALF_DIAGONAL_FT },
  { x: -HALF_DIAGONAL_FT, y: HALF_DIAGONAL_FT },
  { x: 0, y: 0 },
];

/** Where pitcher and catcher start when nobody recorded it: they start from the same place on every pitch. */
export const PITCHER_START: Spot = { x: 0, y: 55 };
export const CATCHER_START: Spot = { x: 0, y: -3 };
