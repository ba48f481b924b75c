import { INFIELD_ARC_FT, PITCHERS_PLATE_FT } from './field.ts';

/** The outer boundary of the infield: the arc where the outfield grass begins. */
export interface InfieldBoundary {
  /** Distance from home of the arc's centre, which lies on the line to second base, feet. */
  readonly centreFt: number;
  readonly radiusFt: number;
}

/**
 * 95 ft about the middle of the front of the pitcher's plate: from memory. Some drawings take the centre of the mound (59 ft
 * from home, OBR 2.01), and a park's own arc may differ again: hence a parameter everywhere.
 */
export const INFIELD_BOUNDARY: InfieldBoundary = { centreFt: PITCHERS_PLATE_FT, radiusFt: INFIELD_ARC_FT };

/** How far a spot lies outside the arc, feet; negative inside. */
export function outsideArcFt(xFt: number, yFt: number, boundary: InfieldBoundary = INFIELD_BOUNDARY): number {
  return Math.hypot(xFt, yFt - boundary.centreFt) - boundary.radiusFt;
}
