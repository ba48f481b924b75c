import type { Random } from '../../numeric/random.ts';

/** How a man hits, true over the whole league. */
export interface BatterHabit {
  /** Bearing toward his pull side at a level swing, degrees; positive pulls. */
  readonly pullDeg: number;
  /** Spread of his bearings, degrees. */
  readonly spreadDeg: number;
  /** Exit speed of a well-met ball, mph. */
  readonly powerMph: number;
  readonly launchMeanDeg: number;
  readonly launchSpreadDeg: number;
  readonly strikeoutShare: number;
  readonly walkShare: number;
}

/** The higher he lifts the ball, the less he pulls it: degrees of bearing a degree of launch angle. */
export const PULL_LOST_PER_DEG = 0.33;
export const USUAL_PULL_DEG = 9.5;
const PULL_SPREAD_DEG = 7.5;

export function drawBatterHabit(random: Random): BatterHabit {
  return {
    pullDeg: USUAL_PULL_DEG + PULL_SPREAD_DEG * random.normal(),
    spreadDeg: 18.5 + 1.5 * random.normal(),
    powerMph: 94 + 2.6 * random.normal(),
    launchMeanDeg: 10.2 + 3 * random.normal(),
    launchSpreadDeg: 27 + 1.5 * random.normal(),
    strikeoutShare: Math.max(0.08, 0.205 + 0.05 * random.normal()),
    walkShare: Math.max(0.03, 0.085 + 0.022 * random.normal()),
  };
}

/** +1 when the batter's pull side is the first-base side (he bats left), -1 when it is the third-base side. */
export function pullSign(batsLeft: boolean): number {
  return batsLeft ? 1 : -1;
}

/** How much more than usual he pulls his ground balls, in the field's frame: + toward first base, degrees. */
export function ownSprayDeg(habit: BatterHabit, batsLeft: boolean): number {
  return pullSign(batsLeft) * (habit.pullDeg - USUAL_PULL_DEG);
}
