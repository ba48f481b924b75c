import { alongLineFt, gapFt } from '../diamond/ball-line.ts';
import { BASE_SPOTS } from '../diamond/field.ts';
import { INFIELD_SIZE } from './grounders.ts';
import type { BallClock } from './travel-time.ts';

/** A ball's nearest point to a defender is never taken closer to home than this: the catcher stands behind the plate. */
export const NEAREST_POINT_FT = 10;

const FIRST_BASE = BASE_SPOTS[1];

/** Gap in feet beyond which a defender is outside any plausible chance: no row, and no chance (method.md 2). */
export const WIDEST_GAP_FT = 60;

/** Arrival: when the ball comes nearest to a defender at a spot, seconds after contact (method.md 1). */
export function arrivalS(clock: BallClock, sinBearing: number, cosBearing: number, xFt: number, yFt: number): number {
  return clock.secondsTo(Math.max(alongLineFt(sinBearing, cosBearing, xFt, yFt), NEAREST_POINT_FT));
}

/** Distance to first base from the point of the ball's line that is nearest to a spot, feet: the throw that awaits him there. */
export function throwFromLineFt(sinBearing: number, cosBearing: number, xFt: number, yFt: number): number {
  const along = Math.max(alongLineFt(sinBearing, cosBearing, xFt, yFt), NEAREST_POINT_FT);
  const dx = along * sinBearing - FIRST_BASE.x;
  const dy = along * cosBearing - FIRST_BASE.y;
  return Math.sqrt(dx * dx + dy * dy);
}

/** Speed of an infield throw, ft/s: 75 mph, at the low end of what is usual (from memory); an origin, the model learns the rest. */
const THROW_FT_S = 110;

/** Seconds to spare at first base if the ball is gathered where it arrives: the runner's time less arrival and the throw's flight. */
export function spareS(batterToFirstS: number, arrival: number, throwFt: number): number {
  return batterToFirstS - arrival - throwFt / THROW_FT_S;
}

/** Gap and arrival of the six infielders on one ball, and the order in which it comes within their areas. */
export interface InfieldGeometry {
  readonly gap: Float64Array;
  readonly arrival: Float64Array;
  /** Indexes 0 to 5 (position - 1) by arrival, equal arrivals by position number. */
  readonly order: Int32Array;
}

export function allocateGeometry(): InfieldGeometry {
  return {
    gap: new Float64Array(INFIELD_SIZE),
    arrival: new Float64Array(INFIELD_SIZE),
    order: new Int32Array(INFIELD_SIZE),
  };
}

/** Fills `out` for the ball that the clock holds and the starts at `starts[at..at+11]`. */
export function infieldGeometryInto(
  clock: BallClock,
  sinBearing: number,
  cosBearing: number,
  starts: Float64Array,
  at: number,
  out: InfieldGeometry,
): void {
  const { gap, arrival, order } = out;
  for (let k = 0; k < INFIELD_SIZE; k += 1) {
    const x = starts[at + 2 * k];
    const y = starts[at + 2 * k + 1];
    gap[k] = gapFt(sinBearing, cosBearing, x, y);
    arrival[k] = arrivalS(clock, sinBearing, cosBearing, x, y);
    let place = k;
    while (place > 0 && arrival[order[place - 1]] > arrival[k]) {
      order[place] = order[place - 1];
      place -= 1;
    }
    order[place] = k;
  }
}
