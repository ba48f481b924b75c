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

/** A usual infielder's run toward a ball on the ground: this speed, ft/s, after the seconds lost to reading it. From memory; only an origin. */
const USUAL_SPEED_FT_S = 22;
const LOST_S = 0.2;
/** Share of its mean speed from home that a ball still has where it comes by an infielder; so by the default of travel time at 130 ft. */
const PACE_LEFT = 0.8;
/** No ball outruns a man by less, ft/s: a slower one dies before him, and he has it wherever he comes to it. */
const LEAST_LEAD_FT_S = 10;

/**
 * Turn: when a usual man would first meet the ball, seconds after contact (method.md 2, docs/decisions/053-who-meets-the-ball-first.md). At
 * `arrivalS` the ball is `alongFt` from home and |gapFt| from his start, and it keeps its pace there: he runs as far as the ball is from his
 * start, which is a quadratic in the time that is left. One in its line comes in to it and is early; one who has to run goes back with it and is
 * late; who never meets it has his turn where the difference of the two squares is least. Even in the gap, rising with its size.
 */
export function turnS(gapFt: number, alongFt: number, arrivalS: number): number {
  const pace = Math.max(
    (PACE_LEFT * Math.max(alongFt, NEAREST_POINT_FT)) / arrivalS,
    USUAL_SPEED_FT_S + LEAST_LEAD_FT_S,
  );
  const run = USUAL_SPEED_FT_S * Math.max(arrivalS - LOST_S, 0);
  const lead = pace * pace - USUAL_SPEED_FT_S * USUAL_SPEED_FT_S;
  const apart = pace * pace * run * run - lead * gapFt * gapFt;
  return arrivalS + (USUAL_SPEED_FT_S * run - Math.sqrt(Math.max(apart, 0))) / lead;
}

/** Gap and arrival of the six infielders on one ball, and the chance order. */
export interface InfieldGeometry {
  readonly gap: Float64Array;
  readonly arrival: Float64Array;
  readonly turn: Float64Array;
  /** Indexes 0 to 5 (position - 1) by turn, equal turns by position number. */
  readonly order: Int32Array;
}

export function allocateGeometry(): InfieldGeometry {
  return {
    gap: new Float64Array(INFIELD_SIZE),
    arrival: new Float64Array(INFIELD_SIZE),
    turn: new Float64Array(INFIELD_SIZE),
    order: new Int32Array(INFIELD_SIZE),
  };
}

/** Fills `out` for the ball that the clock holds and the starts at `starts[at..at+11]`; `turnOf` is another order to try. */
export function infieldGeometryInto(
  clock: BallClock,
  sinBearing: number,
  cosBearing: number,
  starts: Float64Array,
  at: number,
  out: InfieldGeometry,
  turnOf: typeof turnS = turnS,
): void {
  const { gap, arrival, turn, order } = out;
  for (let k = 0; k < INFIELD_SIZE; k += 1) {
    const x = starts[at + 2 * k];
    const y = starts[at + 2 * k + 1];
    gap[k] = gapFt(sinBearing, cosBearing, x, y);
    arrival[k] = arrivalS(clock, sinBearing, cosBearing, x, y);
    turn[k] = turnOf(gap[k], alongLineFt(sinBearing, cosBearing, x, y), arrival[k]);
    let place = k;
    while (place > 0 && turn[order[place - 1]] > turn[k]) {
      order[place] = order[place - 1];
      place -= 1;
    }
    order[place] = k;
  }
}
