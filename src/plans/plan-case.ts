import { SIDES, type Side } from '../diamond/play-codes.ts';
import { NINE, type SkillShift } from './chance-board.ts';
import { type PlanQuestion, runnersText } from './plan-types.ts';
import { poseQuestion } from './pose-question.ts';
import { type PlanGrounds, stakesOfBalls } from './prepare-plans.ts';
import type { BallColumns } from './seen-balls.ts';
import { limitsOf, skillsOf } from './settle-question.ts';
import type { PlanDepth, PlanRule } from './spot-limits.ts';

/** Numbers of balls, null for one that is not known: JSON has no NaN. */
type Numbers = readonly (number | null)[];

/** Balls as plain JSON data, by columns. */
export interface BallsFile {
  /** Codes of BALL_KINDS. */
  readonly kind: readonly number[];
  readonly bearingDeg: Numbers;
  readonly exitSpeedMph: Numbers;
  readonly launchAngleDeg: Numbers;
  /** Codes of SURFACES. */
  readonly surface: readonly number[];
  readonly distanceFt: Numbers;
  readonly hangS: Numbers;
  /** Of the balls that are judged by: the share of all that each stands for. Of the seen ones: how much each counts. */
  readonly weight: readonly number[];
}

/** How much better than average the nine are, as logit shifts by position - 1. */
export interface ShiftsFile {
  readonly groundReach: readonly number[];
  readonly airReach: readonly number[];
  readonly groundFinish: readonly number[];
}

/**
 * A question about one batter in one situation as plain JSON data, with everything that the worth of any starts rests on beside
 * the models: what a page needs to ask what other starts would be worth (method.md 12).
 */
export interface PlanCase {
  readonly side: Side;
  readonly outs: number;
  readonly runners: string;
  readonly rule: PlanRule;
  readonly depth: PlanDepth;
  readonly hold: boolean;
  /** Base-out state: outs * 8 + bases. */
  readonly state: number;
  readonly batterToFirstS: number;
  /** Positions that are placed. */
  readonly movers: readonly number[];
  /** Ids by position - 1; null for nobody known. */
  readonly men: readonly (string | null)[];
  /** Null for average men. */
  readonly shifts: ShiftsFile | null;
  /** x and y of each man by position, feet. */
  readonly even: readonly number[];
  readonly own: readonly number[];
  /** By position - 1: corners (x and y in turn) of where men of that position were seen; null when a man is not bound to it. */
  readonly seenRegions: readonly (readonly number[] | null)[];
  /** The batter's own balls of this side, as they were seen. */
  readonly seen: BallsFile;
  /** Balls to judge by: the league's under his tilt, then his own under the kernel. */
  readonly judging: BallsFile;
  /** Runs that an out on each of the judging balls is worth. */
  readonly stakes: readonly number[];
  /** What redrawn weights are made from (redrawn-weights.ts). */
  readonly redrawn: {
    readonly seed: number;
    readonly ownShare: number;
    readonly precision: number;
    readonly theta: readonly number[];
    readonly information: readonly number[];
    readonly mean: readonly number[];
    readonly leagueShare: number;
    readonly pitcher: readonly number[] | null;
  };
  readonly warnings: readonly string[];
}

/** @throws ExpectedFailure as solvePlan does */
export function packPlanCase(grounds: PlanGrounds, question: PlanQuestion): PlanCase {
  const { settled, batterCase, even, own } = poseQuestion(grounds, question);
  const { data } = grounds;
  const { balls: batter, judging, judgedFrom: from } = batterCase;
  const limits = limitsOf(grounds, settled);
  const shiftOf = skillsOf(grounds, settled, settled.men);
  return {
    side: SIDES[settled.side],
    outs: question.outs,
    runners: runnersText(question.bases),
    rule: question.rule,
    depth: settled.depth,
    hold: settled.hold,
    state: settled.state,
    batterToFirstS: settled.batterToFirstS,
    movers: settled.movers,
    men: Array.from(settled.men, (who) => (who < 0 ? null : data.table.people[who])),
    shifts: shiftOf === undefined ? null : shiftsFile(shiftOf),
    even: Array.from(even),
    own: Array.from(own),
    seenRegions: Array.from({ length: NINE }, (_, k) => {
      const region = settled.movers.includes(k + 1) ? limits.seen(k + 1) : null;
      return region && Array.from(region);
    }),
    seen: ballsFile(batter.own, batter.ownWeight),
    judging: ballsFile(judging, judging.weight),
    stakes: Array.from(stakesOfBalls(grounds, judging, settled.state)),
    redrawn: {
      seed: batterCase.seed,
      ownShare: from.ownShare,
      precision: from.precision,
      theta: Array.from(from.tilt.theta),
      information: Array.from(from.tilt.information),
      mean: Array.from(from.mean),
      leagueShare: from.leagueShare,
      pitcher: from.pitcher && Array.from(from.pitcher),
    },
    warnings: settled.warnings,
  };
}

function shiftsFile(shiftOf: SkillShift): ShiftsFile {
  const ofNine = (shift: (position: number) => number) => Array.from({ length: NINE }, (_, k) => shift(k + 1));
  return {
    groundReach: ofNine((position) => shiftOf('reach', position, 'ground')),
    airReach: ofNine((position) => shiftOf('reach', position, 'air')),
    groundFinish: ofNine((position) => shiftOf('finish', position, 'ground')),
  };
}

function ballsFile(balls: BallColumns, weight: Float64Array): BallsFile {
  const numbers = (column: Float64Array) => Array.from(column, (value) => (Number.isNaN(value) ? null : value));
  return {
    kind: Array.from(balls.kind),
    bearingDeg: numbers(balls.bearingDeg),
    exitSpeedMph: numbers(balls.exitSpeedMph),
    launchAngleDeg: numbers(balls.launchAngleDeg),
    surface: Array.from(balls.surface),
    distanceFt: numbers(balls.distanceFt),
    hangS: numbers(balls.hangS),
    weight: Array.from(weight),
  };
}
