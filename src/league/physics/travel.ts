import { BASE_SPOTS } from '../../diamond/field.ts';
import { FIRST_STEP, GAIN_FT_S2, LATE_STEP_S, SKILL_STRIDE, TOP_SPEED } from './men.ts';

const FT_S_PER_MPH = 5280 / 3600;
/** Shorter throws than this are tossed underhand. */
const TOSS_FT = 32;
const TOSS_FT_S = 48;

/** Seconds a man needs from rest over a distance in feet. */
export function runTimeS(distanceFt: number, topSpeed: number): number {
  const rampFt = (topSpeed * topSpeed) / (2 * GAIN_FT_S2);
  if (distanceFt <= rampFt) return Math.sqrt((2 * distanceFt) / GAIN_FT_S2);
  return topSpeed / GAIN_FT_S2 + (distanceFt - rampFt) / topSpeed;
}

/** Seconds a throw is under way; the air takes about a tenth of its speed over the infield. */
export function throwTimeS(distanceFt: number, armMph: number): number {
  if (distanceFt < TOSS_FT) return distanceFt / TOSS_FT_S;
  return (distanceFt * (1 + distanceFt * 0.0008)) / (armMph * FT_S_PER_MPH);
}

/** A toss takes less of a wind-up than a throw. */
export function releaseTimeS(distanceFt: number, releaseS: number): number {
  return distanceFt < TOSS_FT ? 0.6 * releaseS : releaseS;
}

export function toBagFt(bag: number, xFt: number, yFt: number): number {
  return Math.hypot(BASE_SPOTS[bag]!.x - xFt, BASE_SPOTS[bag]!.y - yFt);
}

/** Who covers which bag, in the order they are asked. */
const COVERS: readonly (readonly number[])[] = [[], [3, 1, 4], [4, 6, 5], [5, 6, 1], [2, 1]];

/** The first moment at which somebody else than `gatherer` stands on a bag; `cover.by` says who. */
export function coverBag(
  bag: number,
  gatherer: number,
  starts: Float64Array,
  men: Float64Array,
  cover: { by: number; timeS: number },
): void {
  cover.by = 0;
  cover.timeS = Number.POSITIVE_INFINITY;
  for (const p of COVERS[bag]!) {
    if (p === gatherer) continue;
    const at = (p - 1) * SKILL_STRIDE;
    const away = Math.max(0, toBagFt(bag, starts[2 * p - 2]!, starts[2 * p - 1]!) - 2);
    const time = men[at + FIRST_STEP]! + LATE_STEP_S[p]! + runTimeS(away, men[at + TOP_SPEED]!);
    if (time < cover.timeS) {
      cover.timeS = time;
      cover.by = p;
    }
  }
}
