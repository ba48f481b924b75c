import type { Random } from '../../numeric/random.ts';
import type { Launch } from '../physics/ball-path.ts';
import { type BatterHabit, PULL_LOST_PER_DEG, pullSign } from './batter-habit.ts';

const FOUL_DEG = 44.8;
const BEST_LAUNCH_DEG = 10;
const SPEED_LOST_PER_DEG2 = 0.0075;
const MOST_LOST_MPH = 24;
const SPEED_SPREAD_MPH = 8.5;
/** Mishits: an exponential loss of speed. */
const MISHIT_MPH = 6;
const KICK_DEG = 0.25;
const HOP_SPREAD = 0.03;

/** Balls topped or squibbed off the end of the bat: hardly hit, straight into the ground. */
const TOPPED_SHARE = 0.016;
const TOPPED_MPH = 25;
const TOPPED_SPREAD_MPH = 8;
const TOPPED_LAUNCH_DEG = -36;
const TOPPED_LAUNCH_SPREAD_DEG = 9;
/** Steeper than this a bat hardly ever beats a ball down: what lies beyond is drawn in. */
const STEEP_DEG = -32;
const STEEP_SHARE = 0.3;

function bounces(launch: Launch, random: Random): void {
  launch.kickDeg = KICK_DEG * random.normal();
  launch.hop = 1 + HOP_SPREAD * Math.max(-2.5, Math.min(2.5, random.normal()));
}

/** A full swing by this batter, in place; foul balls are drawn again. */
export function drawLaunch(habit: BatterHabit, batsLeft: boolean, random: Random, launch: Launch): void {
  const sign = pullSign(batsLeft);
  const topped = random.next() < TOPPED_SHARE;
  const launchMean = topped ? TOPPED_LAUNCH_DEG : habit.launchMeanDeg;
  const launchSpread = topped ? TOPPED_LAUNCH_SPREAD_DEG : habit.launchSpreadDeg;
  do {
    const angle = clamp(launchMean + launchSpread * random.normal(), -80, 78);
    launch.launchAngleDeg = angle < STEEP_DEG ? STEEP_DEG + STEEP_SHARE * (angle - STEEP_DEG) : angle;
    const centre = habit.pullDeg - PULL_LOST_PER_DEG * launch.launchAngleDeg;
    launch.bearingDeg = sign * (centre + habit.spreadDeg * random.normal());
  } while (Math.abs(launch.bearingDeg) > FOUL_DEG);
  const off = launch.launchAngleDeg - BEST_LAUNCH_DEG;
  const lost = Math.min(MOST_LOST_MPH, SPEED_LOST_PER_DEG2 * off * off) - MISHIT_MPH * Math.log(1 - random.next());
  if (topped) launch.exitSpeedMph = clamp(TOPPED_MPH + TOPPED_SPREAD_MPH * random.normal(), 12, 60);
  else launch.exitSpeedMph = clamp(habit.powerMph + 3 - lost + SPEED_SPREAD_MPH * random.normal(), 28, 116);
  bounces(launch, random);
}

/** A bunt: soft, down, toward one of the lines more often than the middle. */
export function drawBunt(random: Random, launch: Launch): void {
  do {
    launch.launchAngleDeg = clamp(-28 + 12 * random.normal(), -60, 5);
    launch.bearingDeg = (random.next() < 0.55 ? -1 : 1) * (26 + 11 * random.normal());
  } while (Math.abs(launch.bearingDeg) > FOUL_DEG);
  launch.exitSpeedMph = clamp(37 + 6 * random.normal(), 22, 60);
  bounces(launch, random);
}

function clamp(value: number, least: number, most: number): number {
  return Math.max(least, Math.min(most, value));
}
