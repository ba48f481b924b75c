import type { AirBalls } from '../chances/air/air-balls.ts';
import type { Flights } from '../chances/air/carry.ts';
import type { Grounders } from '../chances/grounders.ts';
import { bearingDegOf } from '../diamond/bearing.ts';
import { BALL_KINDS } from '../diamond/play-codes.ts';

/** Kinds of ball that a plan is made for, as codes of BALL_KINDS; bunts are left out. */
export const PLANNED_KINDS: readonly number[] = (['ground', 'liner', 'fly', 'popup'] as const).map((kind) =>
  BALL_KINDS.indexOf(kind),
);
export const GROUND = BALL_KINDS.indexOf('ground');

/** Balls as they leave the bat and, in the air, come down: columns of length `count`; a number that is not known is NaN. */
export interface BallColumns {
  readonly count: number;
  /** Code of BALL_KINDS. */
  readonly kind: Uint8Array;
  readonly bearingDeg: Float64Array;
  readonly exitSpeedMph: Float64Array;
  readonly launchAngleDeg: Float64Array;
  /** Code of SURFACES. */
  readonly surface: Uint8Array;
  /** In the air: where and when the ball would come down; NaN on the ground. */
  readonly distanceFt: Float64Array;
  readonly hangS: Float64Array;
}

/** The balls of a book of which enough is known to say what any placement would have made of them, in the order of its table. */
export interface SeenBalls extends BallColumns {
  /** Row in the table of plays. */
  readonly row: Int32Array;
}

export function allocateBalls(count: number) {
  const numbers = () => new Float64Array(count).fill(Number.NaN);
  return {
    count,
    kind: new Uint8Array(count),
    bearingDeg: numbers(),
    exitSpeedMph: numbers(),
    launchAngleDeg: numbers(),
    surface: new Uint8Array(count),
    distanceFt: numbers(),
    hangS: numbers(),
  } satisfies BallColumns;
}

/** Grounders with bearing and speed, balls in the air with a flight (as recorded, or as the carry model says). */
export function collectSeenBalls(grounders: Grounders, air: AirBalls, flights: Flights | null): SeenBalls {
  const rows: { row: number; at: number; ground: boolean }[] = [];
  for (let at = 0; at < grounders.count; at += 1) {
    if (!Number.isNaN(grounders.bearingDeg[at]) && !Number.isNaN(grounders.exitSpeedMph[at]))
      rows.push({ row: grounders.row[at], at, ground: true });
  }
  for (let at = 0; flights !== null && at < air.count; at += 1) {
    if (!Number.isNaN(air.bearingDeg[at]) && flights.distanceFt[at] > 0 && flights.hangS[at] > 0)
      rows.push({ row: air.row[at], at, ground: false });
  }
  rows.sort((a, b) => a.row - b.row);
  const balls = { ...allocateBalls(rows.length), row: Int32Array.from(rows, ({ row }) => row) };
  rows.forEach(({ row, at, ground }, k) => {
    balls.surface[k] = grounders.table.surface[row];
    if (ground) {
      balls.kind[k] = GROUND;
      balls.bearingDeg[k] = grounders.bearingDeg[at];
      balls.exitSpeedMph[k] = grounders.exitSpeedMph[at];
      balls.launchAngleDeg[k] = grounders.launchAngleDeg[at];
      return;
    }
    balls.kind[k] = air.kind[at];
    // Where it came down, not where it set out: a ball may curve off its line.
    balls.bearingDeg[k] = bearingDegOf(flights!.sin[at], flights!.cos[at]);
    balls.exitSpeedMph[k] = air.exitSpeedMph[at];
    balls.launchAngleDeg[k] = air.launchAngleDeg[at];
    balls.distanceFt[k] = flights!.distanceFt[at];
    balls.hangS[k] = flights!.hangS[at];
  });
  return balls;
}
