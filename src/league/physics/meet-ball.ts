import { type BallPath, STEP_S } from './ball-path.ts';
import { ARM_LENGTH_FT, DIVE_FT, GAIN_FT_S2 } from './men.ts';

/** Where one man can best meet a ball. `step` is -1 when he cannot get to it at all. */
export interface Meeting {
  step: number;
  /** Feet that his arm has to make up after his feet did what they could; 0 or less: he is there in time. */
  needFt: number;
  /** What the choice cost, seconds: the time plus the hurry. */
  cost: number;
}

// Copies of this file's own: an imported name is looked up at every use where modules are not compiled away.
const STEP = STEP_S;
const GAIN = GAIN_FT_S2;
const ARM = ARM_LENGTH_FT;
const DIVE = DIVE_FT;

/** Quicker than this nobody moves a glove. */
const REFLEX_S = 0.2;
const SHOULDER_FT = 6;
const JUMP_FT = 8.6;
/** A stretched or diving man would rather meet the ball a little later and on his feet, seconds. */
const STRETCH_COST_S = 0.3;
const DIVE_COST_S = 1;
/** Everybody prefers a catch in the air to a hop. */
const HOP_COST_S = 2.5;
const CLOSING_ROOM_FT_S = 8;
const SLACK_COST_S_PER_FT = 0.02;
const MOST_SLACK_FT = -70;

/**
 * Steps along the ball's way beside a man who starts at (x, y), leaves `delayS` after the path's start and runs
 * straight, and keeps the step that costs least. `lengthFt` is his arm's length (glove side or backhand). In the air
 * (`catching`) ties go to the man with the most time in hand.
 */
export function meetBall(
  path: BallPath,
  x: number,
  y: number,
  delayS: number,
  topSpeed: number,
  lengthFt: number,
  horizonS: number,
  catching: boolean,
  out: Meeting,
): void {
  const { x: xs, y: ys, z: zs } = path;
  const most = lengthFt + DIVE;
  const last = Math.min(path.steps - 1, Math.floor(horizonS / STEP));
  let speed = 0;
  let run = 0;
  let asleepUntil = 0;
  out.step = -1;
  out.cost = Number.POSITIVE_INFINITY;
  out.needFt = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= last; i += 1) {
    const t = i * STEP;
    if (t > delayS) {
      if (speed < topSpeed) speed = Math.min(topSpeed, speed + GAIN * STEP);
      run += speed * STEP;
    }
    if (i < asleepUntil || t < REFLEX_S) continue;
    if (t >= out.cost && !(catching && i <= path.landing)) break;
    const z = zs[i]!;
    if (z > JUMP_FT) continue;
    const dx = xs[i]! - x;
    const dy = ys[i]! - y;
    const reach = run + most;
    const distance2 = dx * dx + dy * dy;
    if (distance2 > reach * reach) {
      // Nothing can happen before ball and man together have closed what is between them.
      asleepUntil = i + (Math.sqrt(distance2) - reach) / (STEP * (path.speed[i]! + topSpeed + CLOSING_ROOM_FT_S));
      continue;
    }
    const need = Math.sqrt(distance2) - run + (z > SHOULDER_FT ? z - SHOULDER_FT : 0);
    if (need > most) continue;
    let cost = t;
    if (need > lengthFt) cost += STRETCH_COST_S + (DIVE_COST_S * (need - lengthFt)) / DIVE;
    else if (need > 0) cost += (STRETCH_COST_S * need) / ARM;
    if (catching) {
      if (i > path.landing) cost += HOP_COST_S;
      cost += SLACK_COST_S_PER_FT * Math.max(MOST_SLACK_FT, need);
    }
    if (cost < out.cost) {
      out.cost = cost;
      out.step = i;
      out.needFt = need;
    }
  }
}

/** How far a man has come `seconds` after his first step, feet, by the same steps as in `meetBall`. */
export function runFt(seconds: number, topSpeed: number): number {
  let speed = 0;
  let run = 0;
  for (let t = 0; t < seconds; t += STEP) {
    speed = Math.min(topSpeed, speed + GAIN * STEP);
    run += speed * STEP;
  }
  return run;
}
