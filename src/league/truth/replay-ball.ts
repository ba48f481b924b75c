import { RESULTS, type Result } from '../../diamond/play-codes.ts';
import { allocateBallPath, type BallPath } from '../physics/ball-path.ts';
import { SKILL_STRIDE } from '../physics/men.ts';
import { playBall } from '../physics/play-ball.ts';
import { allocatePlayDraws, drawPlay } from '../physics/play-draws.ts';
import { allocateOutcome, allocateSituation, type Situation } from '../physics/situation.ts';
import type { LeagueTruth } from './league-truth.ts';
import { traceRow } from './trace-row.ts';

/** What one replay came to; positions and codes as in the plays table, the result in words. */
export interface ReplayOutcome {
  gatheredBy: number;
  gatherTimeS: number;
  gatherXFt: number;
  gatherYFt: number;
  outsMade: number;
  result: Result;
}

export interface ReplayOptions {
  /** x1, y1 to x9, y9 in feet, by position. */
  readonly starts: Float64Array;
  /** The men who played, or the average man at every position. */
  readonly men: 'actual' | 'average';
  /** Uniform in [0, 1). */
  readonly random: () => number;
}

type Replayable = Omit<LeagueTruth, 'levels'>;

/** The ball replayed last, since a ball is usually replayed many times in a row. */
interface Ready {
  play: number;
  readonly path: BallPath;
  readonly situation: Situation;
  readonly actual: Float64Array;
}

const ready = new WeakMap<object, Ready>();
const averages = new WeakMap<object, Float64Array>();
const draws = allocatePlayDraws();
const outcome = allocateOutcome();

/** Replays one ball under any placement; the ball itself is always the same, the luck is the men's. */
export function replayBall(truth: Replayable, play: number, options: ReplayOptions): ReplayOutcome {
  const ball = prepare(truth, play);
  const men = options.men === 'actual' ? ball.actual : averageMen(truth);
  drawPlay(options.random, draws);
  playBall(ball.path, ball.situation, options.starts, men, draws, outcome);
  return {
    gatheredBy: outcome.gatheredBy,
    gatherTimeS: outcome.gatherTimeS,
    gatherXFt: outcome.gatherXFt,
    gatherYFt: outcome.gatherYFt,
    outsMade: outcome.outsMade,
    result: RESULTS[outcome.result]!,
  };
}

/** Where the nine truly stood on a play, x1, y1 to x9, y9. */
export function actualStarts(truth: Replayable, play: number, starts = new Float64Array(18)): Float64Array {
  for (let k = 0; k < 9; k += 1) {
    starts[2 * k] = truth.balls.startXFt[play * 9 + k]!;
    starts[2 * k + 1] = truth.balls.startYFt[play * 9 + k]!;
  }
  return starts;
}

function prepare(truth: Replayable, play: number): Ready {
  const { balls } = truth;
  let entry = ready.get(balls);
  if (entry === undefined) {
    entry = {
      play: -1,
      path: allocateBallPath(),
      situation: allocateSituation(),
      actual: new Float64Array(9 * SKILL_STRIDE),
    };
    ready.set(balls, entry);
  }
  if (entry.play === play) return entry;
  if (!(play >= 0 && play < balls.kind.length))
    throw new RangeError(`play must be a row below ${balls.kind.length}, got ${play}`);
  traceRow(balls, play, entry.path);
  fillSituation(truth, play, entry.situation);
  for (let k = 0; k < 9; k += 1) {
    const at = balls.fielders[play * 9 + k]! * SKILL_STRIDE;
    entry.actual.set(truth.skills.subarray(at, at + SKILL_STRIDE), k * SKILL_STRIDE);
  }
  entry.play = play;
  return entry;
}

/** Writes what stood before the pitch of a play. */
export function fillSituation(truth: Replayable, play: number, situation: Situation): void {
  const { balls } = truth;
  situation.outs = balls.outs[play]!;
  situation.bases = balls.bases[play]!;
  situation.surface = balls.surface[play]!;
  situation.kind = balls.kind[play]!;
  situation.legsS[0] = truth.homeToFirstS[balls.batter[play]!]!;
  for (let base = 1; base <= 3; base += 1) {
    const runner = balls.runners[play * 3 + base - 1]!;
    situation.legsS[base] = runner < 0 ? Number.NaN : truth.homeToFirstS[runner]!;
  }
}

function averageMen(truth: Replayable): Float64Array {
  let men = averages.get(truth.averageSkills);
  if (men === undefined) {
    men = truth.averageSkills.slice(SKILL_STRIDE);
    averages.set(truth.averageSkills, men);
  }
  return men;
}
