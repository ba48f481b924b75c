/**
 * A ball's line on the ground and a defender's place beside it (method.md 1). The line is given by the sine and cosine of
 * its bearing, so that one ball and many defenders cost no trigonometry.
 */

/** Distance along the line from home to the point nearest to the spot, feet; negative behind home. */
export function alongLineFt(sinBearing: number, cosBearing: number, xFt: number, yFt: number): number {
  return xFt * sinBearing + yFt * cosBearing;
}

/** Gap: signed distance from the spot to the line, feet; positive when the ball passes on the first-base side. */
export function gapFt(sinBearing: number, cosBearing: number, xFt: number, yFt: number): number {
  return yFt * sinBearing - xFt * cosBearing;
}
