import { createRandom } from '../numeric/random.ts';
import type { PlanModels, SkillShift } from './chance-board.ts';
import { OWN_COPIES, type WeightedBalls } from './draw-balls.ts';
import { Judge } from './judge-plan.ts';
import { leastTimeS } from './least-time.ts';
import { MovingMarks } from './moving-marks.ts';
import type { BallsFile, PlanCase, ShiftsFile } from './plan-case.ts';
import type { Interval80 } from './plan-types.ts';
import type { RedrawnGains } from './redrawn-gains.ts';
import type { SpotLimits } from './spot-limits.ts';
import { TILT_SIZE, tiltStatistics } from './tilt.ts';

/** What some starts are worth, per 100 balls of the batter. Runs are those above every ball being an out. */
export interface StartsWorth {
  readonly outs: number;
  readonly runs: number;
  readonly gainOnEven: Interval80;
  readonly gainOnOwn: Interval80;
}

/** Runs that some starts save, by ball, and what they come to under each of the redrawn weights. */
interface Saved {
  readonly runs: Float64Array;
  readonly sums: Float64Array;
}

/**
 * Prices any starts for one question, by the code and the models that price plans: the even spots and the club's own have the worth
 * that `leatherbook plan` tells, to the last bits. Needs neither book nor Node. Holds scratch space.
 */
export class WhatIfPlan {
  readonly planCase: PlanCase;
  readonly seen: WeightedBalls;
  readonly balls: WeightedBalls;
  readonly limits: SpotLimits;
  private readonly judge: Judge;
  private readonly marks: MovingMarks;
  private readonly redrawn: RedrawnGains;
  private readonly even: Saved;
  private readonly own: Saved;

  constructor(models: PlanModels, planCase: PlanCase) {
    this.planCase = planCase;
    this.seen = readBalls(planCase.seen);
    this.balls = readBalls(planCase.judging);
    const { seed, ownShare, precision, theta, information, mean, leagueShare, pitcher } = planCase.redrawn;
    const leagueCount = this.balls.count - OWN_COPIES * this.seen.count;
    this.judge = new Judge(models, planCase, this.balls, Float64Array.from(planCase.stakes), {
      ownWeight: this.seen.weight,
      ownStatistics: tiltStatistics(this.seen),
      ownShare,
      tilt: { theta: Float64Array.from(theta), information: Float64Array.from(information) },
      precision,
      mean: Float64Array.from(mean),
      leagueStatistics: tiltStatistics(this.balls).subarray(0, leagueCount * TILT_SIZE),
      leagueShare,
      pitcher: pitcher && Float64Array.from(pitcher),
    });
    this.limits = limitsIn(planCase);
    const shiftOf = planCase.shifts === null ? undefined : readShifts(planCase.shifts);
    this.marks = new MovingMarks(this.judge.board(shiftOf));
    this.redrawn = this.judge.redraw(createRandom(seed).fork('interval'));
    this.even = this.saved(this.marks.at(planCase.even));
    this.own = this.saved(this.marks.at(planCase.own));
  }

  /** `starts` are x and y of all nine by position. */
  worth(starts: ArrayLike<number>): StartsWorth {
    const { judge, redrawn } = this;
    const marks = this.marks.at(starts);
    const now = this.saved(marks);
    // Sums are those of these starts less those of the others: only the former have to be summed anew.
    const gainOn = ({ runs, sums }: Saved) =>
      redrawn.interval(judge.balls.weight, minus(now.runs, runs), 0, minus(now.sums, sums));
    return {
      outs: judge.outs(marks),
      runs: judge.runs(marks),
      gainOnEven: gainOn(this.even),
      gainOnOwn: gainOn(this.own),
    };
  }

  private saved(marks: Float64Array): Saved {
    const runs = this.judge.saved(marks);
    return { runs, sums: this.redrawn.sums(runs) };
  }

  /** Seconds that a man at a spot has against the hardest balls that are hit at him. */
  leastTimeS(xFt: number, yFt: number): number {
    return leastTimeS(this.balls, xFt, yFt);
  }
}

function minus(a: Float64Array, b: Float64Array): Float64Array {
  return a.map((each, k) => each - b[k]);
}

function limitsIn({ rule, depth, hold, batterToFirstS, seenRegions }: PlanCase): SpotLimits {
  const regions = seenRegions.map((region) => region && Float64Array.from(region));
  return { rule, depth, hold, batterToFirstS, seen: (position) => regions[position - 1] ?? null };
}

function readShifts({ groundReach, airReach, groundFinish }: ShiftsFile): SkillShift {
  return (kind, position, ballClass) => {
    const of = kind === 'finish' ? groundFinish : ballClass === 'ground' ? groundReach : airReach;
    return of[position - 1];
  };
}

function readBalls(file: BallsFile): WeightedBalls {
  const numbers = (column: readonly (number | null)[]) => Float64Array.from(column, (value) => value ?? Number.NaN);
  return {
    count: file.kind.length,
    kind: Uint8Array.from(file.kind),
    bearingDeg: numbers(file.bearingDeg),
    exitSpeedMph: numbers(file.exitSpeedMph),
    launchAngleDeg: numbers(file.launchAngleDeg),
    surface: Uint8Array.from(file.surface),
    distanceFt: numbers(file.distanceFt),
    hangS: numbers(file.hangS),
    weight: Float64Array.from(file.weight),
  };
}
