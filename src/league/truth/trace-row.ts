import type { BallPath } from '../physics/ball-path.ts';
import { traceBall } from '../physics/trace-ball.ts';
import type { TruthBalls } from './league-truth.ts';

/** Traces the ball of a row as it truly left the bat. */
export function traceRow(balls: TruthBalls, row: number, path: BallPath): void {
  traceBall(
    {
      exitSpeedMph: balls.exitSpeedMph[row]!,
      launchAngleDeg: balls.launchAngleDeg[row]!,
      bearingDeg: balls.bearingDeg[row]!,
      surface: balls.surface[row]!,
      kickDeg: balls.kickDeg[row]!,
      hop: balls.hop[row]!,
    },
    path,
  );
}
