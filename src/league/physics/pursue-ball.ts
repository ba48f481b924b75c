import { allocateBallPath, type BallPath, STEP_S } from './ball-path.ts';
import { type Handling, handleCatch, handleGrounder } from './handle-ball.ts';
import { type Meeting, meetBall, runFt } from './meet-ball.ts';
import {
  ARM_LENGTH_FT,
  BACKHAND_LOSS_FT,
  FIRST_STEP,
  GLOVE,
  HANDS,
  LATE_STEP_S,
  PITCHER_LOSS_FT,
  SKILL_STRIDE,
  THROWS_LEFT,
  TOP_SPEED,
} from './men.ts';
import type { PlayDraws } from './play-draws.ts';
import { traceDeflected } from './trace-ball.ts';

/** Who got the ball, where and when; the same object is filled again for every play. */
export interface Pursuit {
  touchedBy: number;
  /** 0 when nobody had it under control in time to do something: a boot, or a ball that nobody got to. */
  gatheredBy: number;
  timeS: number;
  xFt: number;
  yFt: number;
  needFt: number;
  caught: boolean;
}

/** Standard deviation of a man's first step from play to play, seconds. */
const STEP_JITTER_S = 0.13;
export const INFIELD_HORIZON_S = 4.5;
/** Balls met sooner than this never are an outfielder's. */
const OUTFIELD_FROM_S = 1.9;
const LONG_S = 12;
const NOT_ASKED = -2;
/** A booted ball this fast leaves the pitcher for another defender. */
const DEFLECT_FT_S = 60;
const SECOND_READ_S = 0.3;

const meetings: Meeting[] = Array.from({ length: 10 }, () => ({ step: -1, needFt: 0, cost: 0 }));
const handling: Handling = { missed: 0, booted: 0, bobbled: 0, clean: 0 };
const deflected = allocateBallPath();

export function allocatePursuit(): Pursuit {
  return { touchedBy: 0, gatheredBy: 0, timeS: 0, xFt: 0, yFt: 0, needFt: 0, caught: false };
}

/** Arm's length of the man at position `p` toward this ball, feet: longer on his glove side. */
function armLengthFt(path: BallPath, starts: Float64Array, men: Float64Array, p: number): number {
  const k = Math.min(20, path.steps - 1);
  const x = starts[2 * p - 2]!;
  const y = starts[2 * p - 1]!;
  const towardFirst = path.x[k]! * y - path.y[k]! * x > 0;
  const at = (p - 1) * SKILL_STRIDE;
  const backhand = towardFirst === (men[at + THROWS_LEFT] === 1);
  return ARM_LENGTH_FT + men[at + GLOVE]! - (backhand ? BACKHAND_LOSS_FT : 0) - (p === 1 ? PITCHER_LOSS_FT : 0);
}

/** Where the man at position `p` can meet a ball from his start, with `jitter` standard deviations of first step. */
export function meetFromStart(
  path: BallPath,
  starts: Float64Array,
  men: Float64Array,
  p: number,
  jitter: number,
  horizonS: number,
  inAir: boolean,
  out: Meeting,
): void {
  const at = (p - 1) * SKILL_STRIDE;
  const delay = men[at + FIRST_STEP]! + LATE_STEP_S[p]! + STEP_JITTER_S * jitter;
  const length = armLengthFt(path, starts, men, p);
  meetBall(path, starts[2 * p - 2]!, starts[2 * p - 1]!, delay, men[at + TOP_SPEED]!, length, horizonS, inAir, out);
}

/** Answers `meetFromStart` for the man at position `p` in another way, for callers that have asked it before. */
export type KnownMeeting = (p: number, horizonS: number, out: Meeting) => void;

/**
 * Runs the nine men after a ball and lets them try it one after the other, the first to meet it first. `known` stands for
 * `meetFromStart` where the same men meet the same ball again and again.
 */
export function pursueBall(
  path: BallPath,
  starts: Float64Array,
  men: Float64Array,
  draws: PlayDraws,
  inAir: boolean,
  surface: number,
  out: Pursuit,
  known?: KnownMeeting,
): void {
  out.touchedBy = 0;
  out.gatheredBy = 0;
  out.caught = false;
  let ball = path;
  const from = (p: number, horizonS: number) =>
    known === undefined
      ? meetFromStart(path, starts, men, p, draws.step[p]!, horizonS, inAir, meetings[p]!)
      : known(p, horizonS, meetings[p]!);
  for (let p = 1; p <= 9; p += 1) {
    if (p <= 6) from(p, inAir ? LONG_S : INFIELD_HORIZON_S);
    else if (inAir) from(p, LONG_S);
    else meetings[p]!.step = NOT_ASKED;
  }
  for (;;) {
    let best = first(inAir);
    if (meetings[7]!.step === NOT_ASKED && (best === 0 || meetings[best]!.step * STEP_S > OUTFIELD_FROM_S)) {
      for (let p = 7; p <= 9; p += 1) from(p, LONG_S);
      if (ball !== path) for (let p = 7; p <= 9; p += 1) turnTo(ball, path, starts, men, draws, p);
      best = first(inAir);
    }
    if (best === 0) {
      settle(ball, out);
      return;
    }
    const meeting = meetings[best]!;
    const step = meeting.step;
    const speed = ball.speed[step]!;
    const caught = inAir && ball === path && step <= path.landing;
    const hands = men[(best - 1) * SKILL_STRIDE + HANDS]!;
    if (caught) handleCatch(meeting.needFt, speed, hands, handling);
    else handleGrounder(meeting.needFt, speed, hands, handling);
    const u = draws.handle[best]!;
    meeting.step = -1;
    if (u >= 1 - handling.missed) continue;
    if (out.touchedBy === 0) out.touchedBy = best;
    out.timeS = ball.startS + step * STEP_S;
    out.xFt = ball.x[step]!;
    out.yFt = ball.y[step]!;
    out.needFt = meeting.needFt;
    if (u >= handling.clean + handling.bobbled) {
      if (best === 1 && !caught && speed > DEFLECT_FT_S && ball === path) {
        ball = deflect(path, step, speed, draws, surface);
        for (let p = 2; p <= 6; p += 1) turnTo(ball, path, starts, men, draws, p);
        continue;
      }
      return;
    }
    out.gatheredBy = best;
    out.caught = caught;
    if (u >= handling.clean) out.timeS += 0.3 + 0.6 * draws.bobble;
    return;
  }
}

/** On the ground whoever comes to the ball first has the first try; in the air they call for it. */
function first(inAir: boolean): number {
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let p = 1; p <= 9; p += 1) {
    const { step, cost } = meetings[p]!;
    const key = inAir ? cost : step;
    if (step >= 0 && key < least) {
      best = p;
      least = key;
    }
  }
  return best;
}

/** A ball that everybody missed is picked up where it lies by the nearest outfielder's position. */
function settle(ball: BallPath, out: Pursuit): void {
  const last = ball.steps - 1;
  out.xFt = ball.x[last]!;
  out.yFt = ball.y[last]!;
  out.timeS = ball.startS + last * STEP_S + 1;
  out.needFt = 0;
  out.gatheredBy = out.xFt < -60 ? 7 : out.xFt > 60 ? 9 : 8;
}

function deflect(path: BallPath, step: number, speed: number, draws: PlayDraws, surface: number): BallPath {
  const before = Math.max(0, step - 1);
  const dx = path.x[step]! - path.x[before]!;
  const dy = path.y[step]! - path.y[before]!;
  const heading = Math.atan2(dx, dy) + (draws.bobble < 0.5 ? -1 : 1) * (0.15 + 0.9 * draws.extra);
  const kept = speed * (0.3 + 0.4 * Math.abs(2 * draws.bobble - 1));
  traceDeflected(
    deflected,
    path.startS + step * STEP_S,
    path.x[step]!,
    path.y[step]!,
    kept * Math.sin(heading),
    kept * Math.cos(heading),
    surface,
  );
  return deflected;
}

/** A man under way to the first meeting turns to the ball's new way from where he has come to. */
function turnTo(
  ball: BallPath,
  path: BallPath,
  starts: Float64Array,
  men: Float64Array,
  draws: PlayDraws,
  p: number,
): void {
  const meeting = meetings[p]!;
  const at = (p - 1) * SKILL_STRIDE;
  let x = starts[2 * p - 2]!;
  let y = starts[2 * p - 1]!;
  if (meeting.step >= 0) {
    const dx = path.x[meeting.step]! - x;
    const dy = path.y[meeting.step]! - y;
    const distance = Math.hypot(dx, dy) || 1;
    const run = Math.min(distance, runFt(ball.startS - men[at + FIRST_STEP]! - LATE_STEP_S[p]!, men[at + TOP_SPEED]!));
    x += (dx / distance) * run;
    y += (dy / distance) * run;
  }
  const delay = SECOND_READ_S + STEP_JITTER_S * draws.step[p]!;
  meetBall(ball, x, y, delay, men[at + TOP_SPEED]!, ARM_LENGTH_FT, LONG_S, false, meeting);
}
