import { BALL_KINDS } from '../../diamond/play-codes.ts';
import type { BallPath } from '../physics/ball-path.ts';

const [GROUND, LINER, FLY, POPUP] = BALL_KINDS.map((_, code) => code) as [number, number, number, number];
const GROUND_LAUNCH_DEG = 6;
const LOW_LINER_DEG = 10;
const LINER_DEG = 20;
const POPUP_DEG = 50;
const INFIELD_FT = 125;
const POPUP_FT = 165;

/** What a watcher calls a ball: by how it left the bat and where it first came down. */
export function nameKind(launchAngleDeg: number, path: BallPath): number {
  const k = Math.min(path.landing, path.steps - 1);
  const carry = Math.hypot(path.x[k]!, path.y[k]!);
  if (launchAngleDeg < GROUND_LAUNCH_DEG || (launchAngleDeg < LOW_LINER_DEG && carry < INFIELD_FT)) return GROUND;
  if (launchAngleDeg < LINER_DEG) return LINER;
  return launchAngleDeg > POPUP_DEG || carry < POPUP_FT ? POPUP : FLY;
}
