import type { PlayCase } from '../../../src/ledger/play-case.ts';
import type { WhatIf } from '../../../src/ledger/what-if.ts';
import type { Explanation, PlayScene } from '../../api/plays.ts';
import { type BallMotion, traceMotion } from '../../field/ball-motion.ts';

/** How far a grounder that is through is followed past the deepest man who had a chance of it, feet. */
const PAST_FT = 25;
const SHORTEST_FT = 20;
const LAST_INFIELDER = 6;

/**
 * A play's ball along its line. On the ground it goes as the travel-time model says, drawn out evenly so that it is where it
 * was gathered when it was gathered, if somebody saw when.
 */
export function motionOf(
  whatIf: WhatIf,
  { ball }: PlayCase,
  explanation: Explanation,
  { inHand }: PlayScene,
): BallMotion {
  if (ball.ballClass === 'air') return traceMotion(ball.sin, ball.cos, ball.distanceFt, true, whatIf.secondsTo);
  const { sinBearing, cosBearing } = ball;
  const gatheredFt = inHand === null ? Number.NaN : Math.hypot(inHand.xFt, inHand.yFt);
  if (inHand === null || inHand.position > LAST_INFIELDER || !(gatheredFt > SHORTEST_FT)) {
    const deepest = Math.max(
      ...explanation.defenders.map((man) => man.startXFt * sinBearing + man.startYFt * cosBearing),
    );
    return traceMotion(sinBearing, cosBearing, Math.max(deepest + PAST_FT, SHORTEST_FT), false, whatIf.secondsTo);
  }
  const late = Number.isNaN(inHand.timeS) ? 1 : inHand.timeS / whatIf.secondsTo(gatheredFt);
  return traceMotion(sinBearing, cosBearing, gatheredFt, false, (distanceFt) => late * whatIf.secondsTo(distanceFt));
}
