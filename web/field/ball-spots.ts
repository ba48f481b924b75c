import { BallClock, type TravelModel } from '../../src/chances/travel-time.ts';
import { radians } from '../../src/diamond/bearing.ts';
import type { WeightedBalls } from '../../src/plans/draw-balls.ts';
import { GROUND } from '../../src/plans/seen-balls.ts';

/** Where balls are drawn, feet, and how much each counts. */
export interface BallSpots {
  readonly xFt: Float64Array;
  readonly yFt: Float64Array;
  readonly weight: Float64Array;
}

/** Grounders are drawn where they are so many seconds after contact: about when they come to the infielders. */
export const GROUNDERS_AFTER_S = 1.5;
const FARTHEST_FT = 200;
const HALVINGS = 12;

export function spotsOnTheGround(balls: WeightedBalls, travel: TravelModel): BallSpots {
  const clock = new BallClock(travel);
  return spotsOf(balls, true, (k) => {
    clock.setBall(balls.exitSpeedMph[k]!, balls.launchAngleDeg[k]!, balls.surface[k]!);
    let [near, far] = [0, FARTHEST_FT];
    for (let step = 0; step < HALVINGS; step += 1) {
      const middle = (near + far) / 2;
      if (clock.secondsTo(middle) < GROUNDERS_AFTER_S) near = middle;
      else far = middle;
    }
    return near;
  });
}

/** In the air: where they come down. */
export function spotsInTheAir(balls: WeightedBalls): BallSpots {
  return spotsOf(balls, false, (k) => balls.distanceFt[k]!);
}

function spotsOf(balls: WeightedBalls, onGround: boolean, distanceFt: (k: number) => number): BallSpots {
  const own = Array.from(balls.kind.keys()).filter((k) => (balls.kind[k] === GROUND) === onGround);
  const distances = own.map(distanceFt);
  const along = (part: (angle: number) => number) =>
    Float64Array.from(own, (k, at) => distances[at]! * part(radians(balls.bearingDeg[k]!)));
  return { xFt: along(Math.sin), yFt: along(Math.cos), weight: Float64Array.from(own, (k) => balls.weight[k]!) };
}
