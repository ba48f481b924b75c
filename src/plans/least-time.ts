import { alongLineFt, gapFt } from '../diamond/ball-line.ts';
import { radians } from '../diamond/bearing.ts';
import { BALL_KINDS } from '../diamond/play-codes.ts';
import type { WeightedBalls } from './draw-balls.ts';
import { GROUND } from './seen-balls.ts';

const LINER = BALL_KINDS.indexOf('liner');
/** A ball that passes a man within this, feet, was hit at him. */
const AT_HIM_FT = 6;
/** The hardest of a batter's balls: one in fifty of those that were hit at the man. */
const HARDEST_SHARE = 0.02;
const FPS_PER_MPH = 5280 / 3600;

/** Seconds that a man less than this is warned about has against the hardest balls; common practice, no source. */
export const SAFE_S = 0.4;

/**
 * Seconds that a man at a spot has against the hardest grounders and liners of a batter that are hit at him: straight from the
 * bat, without losing speed, so that the figure errs toward caution. Infinity when none is.
 */
export function leastTimeS(balls: WeightedBalls, xFt: number, yFt: number): number {
  const times: { time: number; weight: number }[] = [];
  let total = 0;
  for (let k = 0; k < balls.count; k += 1) {
    if (balls.kind[k] !== GROUND && balls.kind[k] !== LINER) continue;
    const bearing = radians(balls.bearingDeg[k]);
    const [sin, cos] = [Math.sin(bearing), Math.cos(bearing)];
    const time = alongLineFt(sin, cos, xFt, yFt) / (balls.exitSpeedMph[k] * FPS_PER_MPH);
    if (Math.abs(gapFt(sin, cos, xFt, yFt)) > AT_HIM_FT || !(time > 0)) continue;
    times.push({ time, weight: balls.weight[k] });
    total += balls.weight[k];
  }
  times.sort((a, b) => a.time - b.time);
  let passed = 0;
  for (const { time, weight } of times) {
    passed += weight;
    if (passed >= HARDEST_SHARE * total) return time;
  }
  return Number.POSITIVE_INFINITY;
}

/** What is said to whoever places a man nearer than `safeS`. */
export function sayTooNear(position: number, timeS: number, safeS: number): string {
  return `Position ${position} would have ${timeS.toFixed(2)} s against his hardest balls, less than ${safeS} s: too near to be safe. The league's and the coach's own rules come first, above all for young players.`;
}
