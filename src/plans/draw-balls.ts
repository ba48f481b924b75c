import type { CarryModel } from '../chances/air/carry.ts';
import { predictLinear } from '../models/fitted-model.ts';
import { normalQuantile } from '../numeric/normal-quantile.ts';
import type { Random } from '../numeric/random.ts';
import type { BatterBalls, LeagueHalf } from './batter-balls.ts';
import { fairBearingDeg } from './fair-bearing.ts';
import { orderToSpread } from './order-to-spread.ts';
import { allocateBalls, type BallColumns, GROUND, PLANNED_KINDS, type SeenBalls } from './seen-balls.ts';
import { dot, TILT_SIZE, tiltWeightsInto } from './tilt.ts';

/** Balls to come, each with the share of all balls that it stands for; shares add up to one. */
export interface WeightedBalls extends BallColumns {
  readonly weight: Float64Array;
}

/** How many balls of each kind a plan is made with: most where the men who are placed have a say. */
export interface KindCounts {
  readonly ground: number;
  readonly liner: number;
  readonly fly: number;
  readonly popup: number;
}

export const INFIELD_COUNTS: KindCounts = { ground: 448, liner: 128, fly: 16, popup: 64 };
export const OUTFIELD_COUNTS: KindCounts = { ground: 320, liner: 160, fly: 160, popup: 64 };

/** One over the plastic number and its powers: the additive recurrence that fills three dimensions evenly (Roberts 2018, from memory). */
const STRIDES = [0.8191725133961645, 0.6710436067037893, 0.5497004779019703];

/** How often each of his own balls is among those that a plan is judged by. */
export const OWN_COPIES = 2;

/** A league ball or one of a man's own, before it is drawn. */
interface Candidates {
  /** Numbers in the seen balls; those from `firstOwn` on are the man's. */
  readonly at: Int32Array;
  readonly own: Uint8Array;
  readonly weight: Float64Array;
}

/** Every ball that could be drawn, with its part of the density: one half of the league under his tilt, and his own. */
function candidates(batter: BatterBalls, half: LeagueHalf, pitcher: Float64Array | null): Candidates {
  const { own, ownShare, ownWeight, tilt } = batter;
  const inLeague = half.at.length;
  const weight = new Float64Array(inLeague + own.count);
  tiltWeightsInto(tilt.theta, half.statistics, weight.subarray(0, inLeague));
  for (let k = 0; k < inLeague; k += 1) weight[k] *= 1 - ownShare;
  const total = ownWeight.reduce((sum, each) => sum + each, 0);
  for (let k = 0; k < own.count; k += 1) weight[inLeague + k] = (ownShare * ownWeight[k]) / total;
  leanToward(pitcher, half.statistics, batter.ownStatistics, 1, weight);
  return {
    at: Int32Array.from(weight, (_, k) => (k < inLeague ? half.at[k] : k - inLeague)),
    own: Uint8Array.from(weight, (_, k) => (k < inLeague ? 0 : 1)),
    weight,
  };
}

/**
 * Multiplies weights (league balls, then own balls, each `copies` times) by another man's tilt, and makes them add up to one:
 * a pitcher who gives up more grounders than others does so to this batter, too.
 */
export function leanToward(
  theta: Float64Array | null,
  league: Float64Array,
  own: Float64Array,
  copies: number,
  weight: Float64Array,
): void {
  if (theta === null) return;
  const inLeague = league.length / TILT_SIZE;
  let total = 0;
  for (let k = 0; k < weight.length; k += 1) {
    const past = k - inLeague;
    const along = past < 0 ? dot(theta, league, k * TILT_SIZE) : dot(theta, own, Math.floor(past / copies) * TILT_SIZE);
    weight[k] *= Math.exp(along);
    total += weight[k];
  }
  for (let k = 0; k < weight.length; k += 1) weight[k] /= total;
}

/**
 * A sample of a man's balls to make a plan with: so many of each kind, within a kind spread evenly over bearing and speed, each
 * of the same weight. His own balls are moved by the kernel, the league's stay as they were seen. `pitcher` is another tilt, of the
 * man who pitches, or null.
 */
export function drawBalls(
  batter: BatterBalls,
  counts: KindCounts,
  carry: CarryModel | null,
  pitcher: Float64Array | null,
  random: Random,
): WeightedBalls {
  const half = batter.league.halves[0];
  const { at, own, weight } = candidates(batter, half, pitcher);
  const bearingOf = (c: number) => (own[c] ? batter.own.bearingDeg[at[c]] : batter.league.balls.bearingDeg[at[c]]);
  const speedOf = (c: number) =>
    (own[c] ? batter.own.exitSpeedMph[at[c]] : batter.league.balls.exitSpeedMph[at[c]]) || 0;
  const kindOf = (c: number) => (own[c] ? batter.own.kind[at[c]] : batter.league.balls.kind[at[c]]);
  const chosen: number[] = [];
  const shares: number[] = [];
  const wanted = [counts.ground, counts.liner, counts.fly, counts.popup];
  PLANNED_KINDS.forEach((kind, g) => {
    const list = Array.from(at.keys()).filter((c) => kindOf(c) === kind && weight[c] > 0);
    const total = list.reduce((sum, c) => sum + weight[c], 0);
    const n = wanted[g];
    if (total === 0 || n === 0) return;
    orderToSpread(list, n, { weight: (c) => weight[c], bearingDeg: bearingOf, exitSpeedMph: speedOf });
    const offset = random.next();
    let passed = 0;
    let drawn = 0;
    for (const c of list) {
      passed += weight[c];
      for (; drawn < n && ((drawn + offset) / n) * total <= passed; drawn += 1) {
        chosen.push(c);
        shares.push(total / n);
      }
    }
  });
  const from = (c: number) => ({ balls: own[c] ? batter.own : batter.league.balls, k: at[c], moved: own[c] === 1 });
  return gatherBalls(chosen.map(from), shares, batter, carry, random);
}

/**
 * Other balls, to judge a plan by: the whole of the league's other half under his tilt, then each of his own balls OWN_COPIES times
 * under the kernel. The order is fixed, so that other weights can be laid over the same balls.
 */
export function judgingBalls(
  batter: BatterBalls,
  carry: CarryModel | null,
  pitcher: Float64Array | null,
  random: Random,
): WeightedBalls {
  const { at, own, weight } = candidates(batter, batter.league.halves[1], pitcher);
  const list: { balls: SeenBalls; k: number; moved: boolean }[] = [];
  const shares: number[] = [];
  for (let c = 0; c < at.length; c += 1) {
    for (let copy = 0; copy < (own[c] ? OWN_COPIES : 1); copy += 1) {
      list.push({ balls: own[c] ? batter.own : batter.league.balls, k: at[c], moved: own[c] === 1 });
      shares.push(own[c] ? weight[c] / OWN_COPIES : weight[c]);
    }
  }
  return gatherBalls(list, shares, batter, carry, random);
}

function gatherBalls(
  list: readonly { readonly balls: SeenBalls; readonly k: number; readonly moved: boolean }[],
  shares: readonly number[],
  { width }: BatterBalls,
  carry: CarryModel | null,
  random: Random,
): WeightedBalls {
  const out = { ...allocateBalls(list.length), weight: Float64Array.from(shares) };
  const launchBefore = new Float64Array(list.length);
  const speedBefore = new Float64Array(list.length);
  const place = [random.next(), random.next(), random.next()];
  list.forEach(({ balls, k, moved }, to) => {
    out.kind[to] = balls.kind[k];
    out.surface[to] = balls.surface[k];
    out.distanceFt[to] = balls.distanceFt[k];
    out.hangS[to] = balls.hangS[k];
    speedBefore[to] = balls.exitSpeedMph[k];
    launchBefore[to] = balls.launchAngleDeg[k];
    const kernel = width[balls.kind[k]];
    const push = (axis: number) => {
      if (!moved) return 0;
      place[axis] = (place[axis] + STRIDES[axis]) % 1;
      return kernel[axis] * normalQuantile(Math.min(Math.max(place[axis], 1e-4), 1 - 1e-4));
    };
    out.bearingDeg[to] = moved ? fairBearingDeg(balls.bearingDeg[k] + push(0)) : balls.bearingDeg[k];
    out.exitSpeedMph[to] = moved ? Math.max(balls.exitSpeedMph[k] + push(1), SLOWEST_MPH) : balls.exitSpeedMph[k];
    out.launchAngleDeg[to] = balls.launchAngleDeg[k] + push(2);
  });
  moveFlights(out, speedBefore, launchBefore, carry);
  return out;
}

/** No ball in play is slower, miles an hour; kernels know no limit. */
const SLOWEST_MPH = 12;
const SHORTEST_FT = 20;
const SHORTEST_HANG_S = 0.3;

/** A ball that left the bat otherwise comes down elsewhere: by as much as the carry model says. */
function moveFlights(
  balls: ReturnType<typeof allocateBalls>,
  speedBefore: Float64Array,
  launchBefore: Float64Array,
  carry: CarryModel | null,
): void {
  if (carry === null || carry.fitted === null) return;
  const changed: number[] = [];
  for (let k = 0; k < balls.count; k += 1) {
    const known = !Number.isNaN(speedBefore[k] + launchBefore[k]);
    const same = balls.exitSpeedMph[k] === speedBefore[k] && balls.launchAngleDeg[k] === launchBefore[k];
    if (balls.kind[k] !== GROUND && known && !same) changed.push(k);
  }
  const pick = (column: Float64Array) => Float64Array.from(changed, (k) => column[k]);
  const before = { speed: pick(speedBefore), launch: pick(launchBefore) };
  const after = { speed: pick(balls.exitSpeedMph), launch: pick(balls.launchAngleDeg) };
  for (const [model, column, least] of [
    [carry.fitted.distance, balls.distanceFt, SHORTEST_FT],
    [carry.fitted.hang, balls.hangS, SHORTEST_HANG_S],
  ] as const) {
    const was = predictLinear(model, before, changed.length);
    const is = predictLinear(model, after, changed.length);
    changed.forEach((k, i) => {
      column[k] = Math.max(column[k] + is[i] - was[i], least);
    });
  }
}
