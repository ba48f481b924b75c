import { BALL_KINDS } from '../../diamond/play-codes.ts';
import type { BallPath } from '../physics/ball-path.ts';
import { allocateDepths, straightUp, toStarts } from '../scenario/usual-starts.ts';
import type { TruthBalls } from './league-truth.ts';
import { traceRow } from './trace-row.ts';

const GROUND = BALL_KINDS.indexOf('ground');
const depths = allocateDepths();

/** Rows of about `count` ground balls, evenly spaced over the league: the standard balls. */
export function standardRows(balls: TruthBalls, count: number): Int32Array {
  const grounders: number[] = [];
  for (let row = 0; row < balls.kind.length; row += 1) if (balls.kind[row] === GROUND) grounders.push(row);
  const every = Math.max(1, grounders.length / count);
  const rows: number[] = [];
  for (let k = 0; k < grounders.length; k += every) rows.push(grounders[Math.floor(k)]!);
  return Int32Array.from(rows);
}

/** Traces the ball of a row, and writes the usual starts (straight-up, nobody on) against its batter's side. */
export function prepareStandard(
  balls: TruthBalls,
  row: number,
  batsLeft: boolean,
  path: BallPath,
  starts: Float64Array,
): void {
  traceRow(balls, row, path);
  straightUp(batsLeft, depths);
  toStarts(depths, starts);
}
