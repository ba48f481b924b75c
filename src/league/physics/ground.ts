import { INFIELD_ARC_FT, PITCHERS_PLATE_FT } from '../../diamond/field.ts';
import { SURFACES } from '../../diamond/play-codes.ts';

/** What a ball feels when it touches the ground, and how fast it loses speed when it rolls. */
export interface Ground {
  /** Share of the ball's energy that one flat contact keeps. */
  readonly energyKept: number;
  /** Share of the downward speed that comes back up in a soft contact. */
  readonly springBack: number;
  /** Slowing of a rolling ball, ft/s each second. */
  readonly rollFtS2: number;
}

/** Energy kept in one contact on turf and dirt: Farlow, thesis, Linfield 2018. Grass, spring and roll are our own. */
export const TURF: Ground = { energyKept: 0.74, springBack: 0.55, rollFtS2: 9 };
export const DIRT: Ground = { energyKept: 0.84, springBack: 0.53, rollFtS2: 10 };
export const GRASS: Ground = { energyKept: 0.7, springBack: 0.45, rollFtS2: 16 };

const TURF_CODE = SURFACES.indexOf('turf');
const INFIELD_CENTRE_Y_FT = 63.64;
const INFIELD_GRASS_HALF_FT = 58;
const MOUND_Y_FT = 59;
const MOUND_RADIUS_FT = 9;
const HOME_CIRCLE_FT = 13;

/** The ground at a spot of a park whose surface has this code (diamond/play-codes.ts). */
export function groundAt(xFt: number, yFt: number, surface: number): Ground {
  if (surface === TURF_CODE) return TURF;
  if (xFt * xFt + yFt * yFt < HOME_CIRCLE_FT * HOME_CIRCLE_FT) return DIRT;
  if (Math.abs(xFt) + Math.abs(yFt - INFIELD_CENTRE_Y_FT) < INFIELD_GRASS_HALF_FT) {
    const dy = yFt - MOUND_Y_FT;
    return xFt * xFt + dy * dy < MOUND_RADIUS_FT * MOUND_RADIUS_FT ? DIRT : GRASS;
  }
  const dy = yFt - PITCHERS_PLATE_FT;
  return xFt * xFt + dy * dy < INFIELD_ARC_FT * INFIELD_ARC_FT ? DIRT : GRASS;
}

/** Distance from home to the fence along a bearing of the given sine and cosine: 330 ft at the lines, 400 in centre. */
export function fenceFt(xFt: number, yFt: number): number {
  const r2 = xFt * xFt + yFt * yFt;
  return r2 === 0 ? 400 : 330 + (70 * (yFt * yFt - xFt * xFt)) / r2;
}
