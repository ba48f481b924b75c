import { BALL_KINDS } from '../../src/diamond/play-codes.ts';
import { allocateBallPath, STEP_S } from '../../src/league/physics/ball-path.ts';
import type { Meeting } from '../../src/league/physics/meet-ball.ts';
import { ARM, FIRST_STEP, GLOVE, RELEASE, SKILL_STRIDE, TOP_SPEED } from '../../src/league/physics/men.ts';
import { playBall } from '../../src/league/physics/play-ball.ts';
import { allocatePlayDraws, drawPlay } from '../../src/league/physics/play-draws.ts';
import { INFIELD_HORIZON_S, meetFromStart } from '../../src/league/physics/pursue-ball.ts';
import { allocateOutcome, allocateSituation } from '../../src/league/physics/situation.ts';
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

/** Outs a play by which a man is better than the average man of a position, in his place among average men. */
export interface TrueGain {
  /** By his feet, glove and hands. */
  reach: number;
  /** By his arm and release. */
  finish: number;
  /** What the sample of balls and luck leaves open: variances of the two. */
  reachVariance: number;
  finishVariance: number;
}

/** How often each ball is replayed for each skill. */
export interface Lucks {
  readonly reach: number;
  readonly finish: number;
}

/**
 * Replays the balls of some rows of the table, the men standing where they stood, with every man of every position in turn in the
 * average man's place and the same luck. By man and position, as `man position`.
 */
export function trueGains(
  truth: Omit<LeagueTruth, 'levels'>,
  rows: readonly number[],
  men: ReadonlyMap<number, readonly number[]>,
  { reach, finish }: Lucks,
  seed: number,
): Map<string, TrueGain> {
  const gains = new Map<string, TrueGain>();
  for (const [position, list] of men)
    for (const man of list)
      gains.set(`${man} ${position}`, { reach: 0, finish: 0, reachVariance: 0, finishVariance: 0 });
  const average = truth.averageSkills.slice(SKILL_STRIDE);
  const nine = average.slice();
  const path = allocateBallPath();
  const starts = new Float64Array(18);
  const situation = allocateSituation();
  const outcome = allocateOutcome();
  const random = createRandom(seed).next;
  const drawn = Array.from({ length: Math.max(reach, finish) }, allocatePlayDraws);
  const { balls } = truth;
  for (const row of rows) {
    traceRow(balls, row, path);
    actualStarts(truth, row, starts);
    fillSituation(truth, row, situation);
    const outOf = (luck: number) => {
      playBall(path, situation, starts, nine, drawn[luck]!, outcome);
      return outcome.outsMade > 0 ? 1 : 0;
    };
    for (const draws of drawn) drawPlay(random, draws);
    nine.set(average);
    const usual = drawn.map((_, luck) => ({ out: outOf(luck), by: outcome.gatheredBy }));
    for (const [position, list] of men) {
      if (!mayMatter(position, balls.kind[row] !== GROUND)) continue;
      const at = (position - 1) * SKILL_STRIDE;
      for (const man of list) {
        const own = truth.skills.subarray(man * SKILL_STRIDE, (man + 1) * SKILL_STRIDE);
        const gain = gains.get(`${man} ${position}`)!;
        nine.set(own, at);
        nine[at + ARM] = average[at + ARM]!;
        nine[at + RELEASE] = average[at + RELEASE]!;
        let more = 0;
        for (let luck = 0; luck < reach; luck += 1) more += (outOf(luck) - usual[luck]!.out) / reach;
        gain.reach += more / rows.length;
        gain.reachVariance += (more / rows.length) ** 2;
        nine.set(average.subarray(at, at + SKILL_STRIDE), at);
        nine[at + ARM] = own[ARM]!;
        nine[at + RELEASE] = own[RELEASE]!;
        more = 0;
        for (let luck = 0; luck < finish; luck += 1) {
          const { out, by } = usual[luck]!;
          if (by === position) more += (outOf(luck) - out) / finish;
        }
        gain.finish += more / rows.length;
        gain.finishVariance += (more / rows.length) ** 2;
        nine.set(average.subarray(at, at + SKILL_STRIDE), at);
      }
    }
  }
  return gains;

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

const meeting: Meeting = { step: -1, needFt: 0, cost: 0 };
