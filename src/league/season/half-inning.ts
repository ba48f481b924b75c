import { BALL_KINDS, ON_FIRST, ON_SECOND } from '../../diamond/play-codes.ts';
import type { Random } from '../../numeric/random.ts';
import { allocateBallPath, type Launch } from '../physics/ball-path.ts';
import { SKILL_STRIDE } from '../physics/men.ts';
import { playBall } from '../physics/play-ball.ts';
import { allocatePlayDraws, drawPlay } from '../physics/play-draws.ts';
import { allocateOutcome, allocateSituation, type Outcome } from '../physics/situation.ts';
import { traceBall } from '../physics/trace-ball.ts';
import { drawBunt, drawLaunch } from '../scenario/draw-launch.ts';
import { nameKind } from '../scenario/name-kind.ts';
import type { Person } from '../scenario/person.ts';
import { placeDefence } from '../scenario/place-defence.ts';
import type { PlacementHabit } from '../scenario/placement-habit.ts';
import { walkAll } from './move-runners.ts';
import type { PlayContext, Recorder } from './recorder.ts';

const BUNT = BALL_KINDS.indexOf('bunt');
const SACRIFICE_SHARE = 0.045;
const DRAG_BUNT_SHARE = 0.007;
const CORNERS_EXPECT = 0.6;

/** Who bats and who fields in one half of an inning. */
export interface Sides {
  readonly order: readonly Person[];
  /** Place in the order of the next batter; moved on. */
  next: number;
  /** By position, 1 to 9. */
  readonly men: readonly Person[];
  readonly habit: PlacementHabit;
}

const path = allocateBallPath();
const draws = allocatePlayDraws();
const situation = allocateSituation();
const outcome: Outcome = allocateOutcome();
const starts = new Float64Array(18);
const skills = new Float64Array(9 * SKILL_STRIDE);
const launch: Launch = { exitSpeedMph: 0, launchAngleDeg: 0, bearingDeg: 0, surface: 0, kickDeg: 0, hop: 1 };

/**
 * Plays until three are out, or the home side has the run it needs; answers the runs and the outs made. A play's
 * runs_rest_of_inning counts from its own start, so it includes what scored on the play itself.
 */
export function playHalfInning(
  sides: Sides,
  context: PlayContext,
  recorder: Recorder,
  firstNumber: number,
  runsToWin: number,
  random: Random,
): { runs: number; outs: number; plays: number } {
  for (let p = 1; p <= 9; p += 1) skills.set(sides.men[p]!.skills, (p - 1) * SKILL_STRIDE);
  const runners: (Person | null)[] = [null, null, null, null];
  const firstRow = recorder.count;
  const runsBefore: number[] = [];
  let [runs, outs, plays] = [0, 0, 0];
  while (outs < 3 && runs < runsToWin) {
    const batter = sides.order[sides.next]!;
    sides.next = (sides.next + 1) % sides.order.length;
    const bases = (runners[1] ? 1 : 0) | (runners[2] ? 2 : 0) | (runners[3] ? 4 : 0);
    const forcedBunt = (bases & ON_FIRST) !== 0 && (bases & ON_SECOND) === 0 && outs === 0;
    const bunts = random.next() < (forcedBunt ? SACRIFICE_SHARE : bases === 0 ? DRAG_BUNT_SHARE : 0);
    if (!bunts) {
      const u = random.next();
      if (u < batter.habit.strikeoutShare) {
        outs += 1;
        continue;
      }
      if (u < batter.habit.strikeoutShare + batter.habit.walkShare) {
        runs += walkAll(runners, batter);
        continue;
      }
    }
    launch.surface = context.surface;
    if (bunts) drawBunt(random, launch);
    else drawLaunch(batter.habit, batter.batsLeft, random, launch);
    traceBall(launch, path);
    if (path.gone) {
      for (let base = 1; base <= 3; base += 1) {
        if (runners[base]) runs += 1;
        runners[base] = null;
      }
      runs += 1;
      continue;
    }
    const state = {
      outs,
      bases,
      inning: context.inning,
      buntLikely: bunts && forcedBunt && random.next() < CORNERS_EXPECT,
      twoASide: context.twoASide,
    };
    placeDefence(sides.habit, batter, state, random, starts);
    situation.outs = outs;
    situation.bases = bases;
    situation.surface = context.surface;
    situation.kind = bunts ? BUNT : nameKind(launch.launchAngleDeg, path);
    situation.legsS[0] = batter.homeToFirstS;
    for (let base = 1; base <= 3; base += 1) situation.legsS[base] = runners[base]?.homeToFirstS ?? Number.NaN;
    drawPlay(random.next, draws);
    playBall(path, situation, starts, skills, draws, outcome);
    plays += 1;
    const row = recorder.record(
      context,
      firstNumber + plays,
      situation,
      batter,
      runners,
      sides.men,
      starts,
      launch,
      path,
      outcome,
    );
    const scored = applyOutcome(outcome, runners, batter, outs);
    outs = Math.min(3, outs + outcome.outsMade);
    recorder.plays.outsMade[row] = Math.min(outcome.outsMade, 3);
    recorder.plays.runsScored[row] = scored;
    runsBefore.push(runs);
    runs += scored;
  }
  for (let k = 0; k < plays; k += 1) recorder.plays.runsRestOfInning[firstRow + k] = runs - runsBefore[k]!;
  return { runs, outs, plays };
}

/** Moves everybody to where the play left him; no run counts on a play that makes the third out. */
function applyOutcome(result: Outcome, runners: (Person | null)[], batter: Person, outs: number): number {
  const before = [batter, runners[1], runners[2], runners[3]];
  runners.fill(null);
  if (outs + result.outsMade >= 3) return 0;
  let runs = 0;
  for (let from = 0; from <= 3; from += 1) {
    const to = result.to[from]!;
    if (to === 4) runs += 1;
    else if (to > 0) runners[to] = before[from] ?? null;
  }
  return runs;
}
