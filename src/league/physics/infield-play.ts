import { BASE_SPOTS } from '../../diamond/field.ts';
import { ARM, ARM_LENGTH_FT, RELEASE, SKILL_STRIDE, TOP_SPEED } from './men.ts';
import type { PlayDraws } from './play-draws.ts';
import type { Pursuit } from './pursue-ball.ts';
import type { Situation } from './situation.ts';
import { coverBag, releaseTimeS, runTimeS, throwTimeS, toBagFt } from './travel.ts';

/** When the ball can be at each bag (index 1 to 4), seconds, and how: index 0 is unused. */
export interface BagTimes {
  readonly readyS: Float64Array;
  /** 1 when the gatherer carries the ball there himself. */
  readonly carried: Uint8Array;
  /** Position of the man who takes it there. */
  readonly taker: Uint8Array;
  readonly throwFt: Float64Array;
}

const CARRY_SETTLE_S = 0.2;
const STRETCH_RELEASE_S = 0.22;
const DIVE_RELEASE_S = 0.75;
const AGAINST_RELEASE_S = 0.16;
const RELEASE_JITTER_S = 0.06;
/** A runner on a base leads off and goes on contact, so he needs this share of his home-to-first time. */
const NEXT_BASE_SHARE = 0.83;
const cover = { by: 0, timeS: 0 };

export function allocateBagTimes(): BagTimes {
  return {
    readyS: new Float64Array(5),
    carried: new Uint8Array(5),
    taker: new Uint8Array(5),
    throwFt: new Float64Array(5),
  };
}

/** When the gatherer, by throw or on foot, can have the ball at each bag with somebody on it. */
export function bagTimes(
  pursuit: Pursuit,
  starts: Float64Array,
  men: Float64Array,
  draws: PlayDraws,
  out: BagTimes,
): void {
  const p = pursuit.gatheredBy;
  const at = (p - 1) * SKILL_STRIDE;
  const stretch = Math.max(0, pursuit.needFt) / ARM_LENGTH_FT;
  const hurry =
    STRETCH_RELEASE_S * Math.min(1, stretch) + (stretch > 1 ? DIVE_RELEASE_S * Math.min(1, 2 * (stretch - 1)) : 0);
  const ranX = pursuit.xFt - starts[2 * p - 2]!;
  const ranY = pursuit.yFt - starts[2 * p - 1]!;
  const ran = Math.hypot(ranX, ranY);
  for (let bag = 1; bag <= 4; bag += 1) {
    const away = toBagFt(bag, pursuit.xFt, pursuit.yFt);
    const release = releaseTimeS(away, men[at + RELEASE]!) + RELEASE_JITTER_S * draws.release;
    const against =
      ran > 3 ? AGAINST_RELEASE_S * againstRun(bag, pursuit, ranX / ran, ranY / ran, away) * Math.min(1, ran / 12) : 0;
    const thrown = pursuit.timeS + release + hurry + against + throwTimeS(away, men[at + ARM]!);
    coverBag(bag, p, starts, men, cover);
    const taken = Math.max(thrown, cover.timeS);
    const onFoot = pursuit.timeS + CARRY_SETTLE_S + hurry + runTimeS(Math.max(0, away - 2), men[at + TOP_SPEED]!);
    out.carried[bag] = onFoot < taken ? 1 : 0;
    out.taker[bag] = onFoot < taken ? p : cover.by;
    out.readyS[bag] = Math.min(onFoot, taken);
    out.throwFt[bag] = onFoot < taken ? 0 : away;
  }
}

/** 0 when he ran straight toward the bag, 1 when straight away from it. */
function againstRun(bag: number, pursuit: Pursuit, ux: number, uy: number, away: number): number {
  if (away < 1) return 0;
  const bx = BASE_SPOTS[bag]!.x - pursuit.xFt;
  const by = BASE_SPOTS[bag]!.y - pursuit.yFt;
  return 0.5 * (1 - (ux * bx + uy * by) / away);
}

/** Seconds from contact at which the man from base `from` (0 the batter) is at the next base. */
export function nextBaseS(situation: Situation, from: number, draws: PlayDraws): number {
  const leg = situation.legsS[from]!;
  return from === 0 ? leg + 0.09 * draws.batterRun : NEXT_BASE_SHARE * leg + 0.1 * draws.runnerRun;
}

/** Seconds the pivot man needs to turn a throw on to first base, from taking it at second. */
export function pivotS(pivot: number, men: Float64Array): number {
  const at = (pivot - 1) * SKILL_STRIDE;
  return 0.7 * men[at + RELEASE]! + 0.1 + throwTimeS(90, men[at + ARM]!);
}
