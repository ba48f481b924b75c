import type { Random } from '../numeric/random.ts';
import { ChanceBoard, type PitchFacts, type PlanModels, type SkillShift } from './chance-board.ts';
import type { WeightedBalls } from './draw-balls.ts';
import { MovingMarks } from './moving-marks.ts';
import type { Interval80 } from './plan-types.ts';
import { RedrawnGains } from './redrawn-gains.ts';
import { type RedrawnFrom, weightedMean } from './redrawn-weights.ts';

const PER = 100;

/** How sure it is which balls will come. */
export interface JudgedFrom extends RedrawnFrom {
  /** Tilt of the pitcher's balls, or null. */
  readonly pitcher: Float64Array | null;
}

/** Prices placements on balls that no plan was made with. Needs neither book nor Node. */
export class Judge {
  readonly balls: WeightedBalls;
  private readonly models: PlanModels;
  private readonly facts: PitchFacts;
  /** Runs that an out is worth, by ball. */
  private readonly stakes: Float64Array;
  private readonly from: JudgedFrom;

  constructor(models: PlanModels, facts: PitchFacts, balls: WeightedBalls, stakes: Float64Array, from: JudgedFrom) {
    this.models = models;
    this.facts = facts;
    this.balls = balls;
    this.stakes = stakes;
    this.from = from;
  }

  board(shiftOf: SkillShift | undefined): ChanceBoard {
    return new ChanceBoard(this.models, this.balls, this.facts, shiftOf);
  }

  marks(placements: readonly Float64Array[], shiftOf: SkillShift | undefined): Float64Array[] {
    const marks = new MovingMarks(this.board(shiftOf));
    return placements.map((starts) => marks.at(starts).slice());
  }

  outs(marks: Float64Array): number {
    return PER * weightedMean(this.balls.weight, marks);
  }

  runs(marks: Float64Array): number {
    return (
      PER *
      weightedMean(
        this.balls.weight,
        marks.map((mark, k) => this.stakes[k] * (1 - mark)),
      )
    );
  }

  /** Runs that the outs of set marks are worth, by ball. */
  saved(marks: Float64Array): Float64Array {
    return marks.map((mark, k) => mark * this.stakes[k]);
  }

  redraw(random: Random): RedrawnGains {
    return new RedrawnGains(this.from, this.from.pitcher, random);
  }

  /** Runs per 100 balls that a difference of set marks is worth, and where it could as well lie; `sd` is what else is uncertain of it. */
  gain(difference: Float64Array, redrawn: Random | RedrawnGains, sd = 0): Interval80 {
    const runs = this.saved(difference);
    const gains = redrawn instanceof RedrawnGains ? redrawn : this.redraw(redrawn);
    return gains.interval(this.balls.weight, runs, sd);
  }
}
