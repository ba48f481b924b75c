import { BALL_KINDS } from '../../diamond/play-codes.ts';
import { WHOLE } from '../grades.ts';
import type { AirBalls } from './air-balls.ts';

/**
 * Chances of an out on a ball that fell and was then picked up (a force, a batter thrown out on a hop): a plain rate by ball
 * kind, for infielders and outfielders. Index kind * 2 + (1 for outfielders).
 */
export type HopRates = readonly number[];

export function measureHopRates(balls: AirBalls): HopRates {
  const outs = new Float64Array(BALL_KINDS.length * 2);
  const pickedUp = new Float64Array(BALL_KINDS.length * 2);
  for (let at = 0; at < balls.count; at += 1) {
    if (balls.hopBy[at] === 0 || balls.grade[at] === WHOLE) continue;
    pickedUp[rateIndex(balls, at)] += 1;
    outs[rateIndex(balls, at)] += balls.closed[at];
  }
  return Array.from(outs, (n, k) => (pickedUp[k] > 0 ? n / pickedUp[k] : 0));
}

/** G of every ball (method.md 3): 1 for a catch, the plain rate for a ball picked up after it fell, 0 when nobody had it. */
export function airFinishChances(rates: HopRates, balls: AirBalls): Float64Array {
  const out = new Float64Array(balls.count);
  for (let at = 0; at < balls.count; at += 1) {
    if (balls.table.gatheredBy[balls.row[at]] > 0) out[at] = 1;
    else if (balls.hopBy[at] > 0) out[at] = rates[rateIndex(balls, at)];
  }
  return out;
}

function rateIndex(balls: AirBalls, at: number): number {
  return balls.kind[at] * 2 + (balls.hopBy[at] >= 7 ? 1 : 0);
}
