import type { FlightChances } from '../chances/air/flight-chances.ts';
import type { ClassPlays } from '../chances/class-plays.ts';
import type { EvenDraws } from '../chances/even-draws.ts';
import { FULL } from '../chances/grades.ts';
import type { GroundBalls } from '../chances/grounder-chances.ts';
import type { Shifts } from './balance.ts';

/** A grounder as its chances see it; its bearing by sine and cosine, so that nothing is computed twice. */
export interface GroundBall {
  readonly ballClass: 'ground';
  readonly sinBearing: number;
  readonly cosBearing: number;
  readonly exitSpeedMph: number;
  readonly launchAngleDeg: number;
  readonly surface: number;
  readonly batterToFirstS: number;
  readonly state: number;
}

/** A ball in the air, taken on to the ground; null for a number that was not recorded. */
export interface AirBall {
  readonly ballClass: 'air';
  /** Code of BALL_KINDS. */
  readonly kind: number;
  readonly bearingDeg: number;
  readonly exitSpeedMph: number | null;
  readonly sin: number;
  readonly cos: number;
  readonly distanceFt: number;
  readonly hangS: number;
}

/**
 * One play of grade `full` as plain JSON data, with everything that its set mark and placement rest on beside the models:
 * what a page needs to ask what would have been with other starts (method.md 4 to 7).
 */
export interface PlayCase {
  readonly playId: string;
  readonly ball: GroundBall | AirBall;
  /** x and y of positions 1 to 6, in the air 1 to 9, feet. */
  readonly starts: readonly number[];
  /** Indexes (position - 1) of the men who move with ball and batter. */
  readonly movable: readonly number[];
  /** Starts of the movable men on the plays that the opening mark averages over: a row a draw, x and y of each man. */
  readonly drawn: readonly (readonly number[])[];
  readonly shifts: Pick<Shifts, 'opening' | 'set'>;
  /** Runs an out is worth on this play. */
  readonly stakeRuns: number;
}

/** Takes play `at` out of its class; null below grade `full` and where there was nothing to draw from: no set mark there. */
export function packPlayCase(
  plays: ClassPlays,
  at: number,
  ball: PlayCase['ball'],
  movable: readonly number[],
  draws: EvenDraws,
  shifts: Pick<Shifts, 'opening' | 'set'>,
  stakeRuns: number,
): PlayCase | null {
  const { starts, men, table, row, grade } = plays;
  const lenders = Array.from(draws.source.subarray(at * draws.draws, (at + 1) * draws.draws));
  if (grade[at] !== FULL || lenders[0] < 0) return null;
  const spot = (play: number, k: number) => [starts[(play * men + k) * 2], starts[(play * men + k) * 2 + 1]];
  return {
    playId: table.playId[row[at]],
    ball,
    starts: Array.from(starts.subarray(at * men * 2, (at + 1) * men * 2)),
    movable,
    drawn: lenders.map((lender) => movable.flatMap((k) => spot(lender, k))),
    shifts: { opening: shifts.opening, set: shifts.set },
    stakeRuns,
  };
}

export function packGroundBall(balls: GroundBalls, at: number): GroundBall {
  return {
    ballClass: 'ground',
    sinBearing: balls.sinBearing[at],
    cosBearing: balls.cosBearing[at],
    exitSpeedMph: balls.exitSpeedMph[at],
    launchAngleDeg: balls.launchAngleDeg[at],
    surface: balls.surface[at],
    batterToFirstS: balls.batterToFirstS[at],
    state: balls.state[at],
  };
}

export function packAirBall({ balls, flights }: Pick<FlightChances, 'balls' | 'flights'>, at: number): AirBall {
  const speed = balls.exitSpeedMph[at];
  return {
    ballClass: 'air',
    kind: balls.kind[at],
    bearingDeg: balls.bearingDeg[at],
    exitSpeedMph: Number.isNaN(speed) ? null : speed,
    sin: flights.sin[at],
    cos: flights.cos[at],
    distanceFt: flights.distanceFt[at],
    hangS: flights.hangS[at],
  };
}
