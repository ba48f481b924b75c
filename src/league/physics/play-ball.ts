import { BALL_KINDS, RESULTS } from '../../diamond/play-codes.ts';
import { advanceAll } from './advance.ts';
import type { BallPath } from './ball-path.ts';
import { finishCatch } from './finish-catch.ts';
import { finishGrounder } from './finish-grounder.ts';
import type { PlayDraws } from './play-draws.ts';
import { allocatePursuit, type KnownMeeting, type Pursuit, pursueBall } from './pursue-ball.ts';
import type { Outcome, Situation } from './situation.ts';
import { takeBases } from './take-bases.ts';

const [GROUND, LINER, , , BUNT] = BALL_KINDS.map((_, code) => code);
const [ERROR, SINGLE] = [RESULTS.indexOf('error'), RESULTS.indexOf('single')];
/** A boot of a ball that a man was this near to (feet short at most) counts as an error. */
const ROUTINE_NEED_FT = 1.2;
const ROUTINE_CATCH_NEED_FT = 2.2;
/** An infielder who has a fallen ball this far out cannot throw anybody out. */
const PLAY_FROM_FT = 190;

const pursuit: Pursuit = allocatePursuit();

/** One ball in play from bat to dead ball: `starts` x1, y1 to x9, y9 in feet, `men` nine men's skills. */
export function playBall(
  path: BallPath,
  situation: Situation,
  starts: Float64Array,
  men: Float64Array,
  draws: PlayDraws,
  out: Outcome,
  known?: KnownMeeting,
): void {
  const onGround = situation.kind === GROUND || situation.kind === BUNT;
  pursueBall(path, starts, men, draws, !onGround, situation.surface, pursuit, known);
  out.touchedBy = pursuit.touchedBy || pursuit.gatheredBy;
  out.gatheredBy = pursuit.gatheredBy;
  const nobody = pursuit.gatheredBy === 0;
  out.gatherTimeS = nobody ? Number.NaN : pursuit.timeS;
  out.gatherXFt = nobody ? Number.NaN : pursuit.xFt;
  out.gatherYFt = nobody ? Number.NaN : pursuit.yFt;
  if (nobody) drop(situation, onGround, out, draws);
  else if (pursuit.caught) finishCatch(situation, pursuit, men, draws, situation.kind === LINER, out);
  else if (pursuit.gatheredBy < 7 && Math.hypot(pursuit.xFt, pursuit.yFt) < PLAY_FROM_FT)
    finishGrounder(situation, pursuit, starts, men, draws, situation.kind === BUNT, out);
  else takeBases(situation, pursuit, men, draws, out);
}

/** A ball that somebody touched and nobody could use: an error where it was routine, else a single. */
function drop(situation: Situation, onGround: boolean, out: Outcome, draws: PlayDraws): void {
  const routine = pursuit.needFt < (onGround ? ROUTINE_NEED_FT : ROUTINE_CATCH_NEED_FT);
  out.result = routine ? ERROR : SINGLE;
  out.outsMade = 0;
  out.throwTo = 0;
  const count = pursuit.touchedBy >= 7 && draws.extra < 0.5 ? 2 : 1;
  out.to[0] = count;
  if (!routine) out.result = SINGLE + count - 1;
  advanceAll(situation.bases, out.to, count);
}
