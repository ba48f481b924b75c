import { BALL_KINDS } from '../../src/diamond/play-codes.ts';
import { allocateBallPath, STEP_S } from '../../src/league/physics/ball-path.ts';
import type { Meeting } from '../../src/league/physics/meet-ball.ts';
import { FIRST_STEP, GLOVE, SKILL_STRIDE, TOP_SPEED } from '../../src/league/physics/men.ts';
import { playBall } from '../../src/league/physics/play-ball.ts';
import { allocatePlayDraws, drawPlay } from '../../src/league/physics/play-draws.ts';
import { INFIELD_HORIZON_S, meetFromStart } from '../../src/league/physics/pursue-ball.ts';
import { allocateOutcome, allocateSituation, type Outcome } from '../../src/league/physics/situation.ts';
import type { LeagueTruth } from '../../src/league/truth/league-truth.ts';
import { actualStarts, fillSituation } from '../../src/league/truth/replay-ball.ts';
import { traceRow } from '../../src/league/truth/trace-row.ts';
import { createRandom } from '../../src/numeric/random.ts';

const GROUND = BALL_KINDS.indexOf('ground');
/** Nobody is this much better than the average man. */
const BEYOND_ANYBODY = { firstStepS: -0.25, topSpeed: 6, gloveFt: 3 };
const LONG_S = 12;
/** An infielder may still make an out of a liner that he takes this much after its first hop. */
const HOP_S = 1;

/** Is told what each ball came to; `outcome` is filled again for the next. */
export interface ReplayWatcher {
  /** Comes before any man on that ball. */
  ball?(ball: number): void;
  /** With that man at that position, on every ball that even a man beyond anybody might have got to there. */
  man(ball: number, man: number, position: number, outcome: Outcome): void;
}

/**
 * Replays balls (rows of the table) with all standing where they stood, average men but for one: every man of every position in turn takes
 * the average man's place; a ball's luck is the same for all.
 */
export function playInTurn(
  truth: Omit<LeagueTruth, 'levels'>,
  rows: readonly number[],
  men: ReadonlyMap<number, readonly number[]>,
  seed: number,
  watcher: ReplayWatcher,
): void {
  const average = truth.averageSkills.slice(SKILL_STRIDE);
  const nine = average.slice();
  const path = allocateBallPath();
  const starts = new Float64Array(18);
  const situation = allocateSituation();
  const outcome = allocateOutcome();
  const draws = allocatePlayDraws();
  const meeting: Meeting = { step: -1, needFt: 0, cost: 0 };
  const random = createRandom(seed).next;
  rows.forEach((row, ball) => {
    traceRow(truth.balls, row, path);
    actualStarts(truth, row, starts);
    fillSituation(truth, row, situation);
    drawPlay(random, draws);
    watcher.ball?.(ball);
    for (const [position, list] of men) {
      if (!mayMatter(position, truth.balls.kind[row] !== GROUND)) continue;
      const at = (position - 1) * SKILL_STRIDE;
      for (const man of list) {
        nine.set(truth.skills.subarray(man * SKILL_STRIDE, (man + 1) * SKILL_STRIDE), at);
        playBall(path, situation, starts, nine, draws, outcome);
        watcher.man(ball, man, position, outcome);
      }
      nine.set(average.subarray(at, at + SKILL_STRIDE), at);
    }
  });

  /** False when even a man beyond anybody would not make an out of this ball. */
  function mayMatter(position: number, inAir: boolean): boolean {
    const at = (position - 1) * SKILL_STRIDE;
    nine[at + FIRST_STEP]! += BEYOND_ANYBODY.firstStepS;
    nine[at + TOP_SPEED]! += BEYOND_ANYBODY.topSpeed;
    nine[at + GLOVE]! += BEYOND_ANYBODY.gloveFt;
    meetFromStart(path, starts, nine, position, -2, inAir ? LONG_S : INFIELD_HORIZON_S, inAir, meeting);
    nine.set(average.subarray(at, at + SKILL_STRIDE), at);
    return meeting.step >= 0 && (!inAir || meeting.step <= path.landing + (position <= 6 ? HOP_S / STEP_S : 0));
  }
}
