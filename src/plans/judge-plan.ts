import type { Random } from '../numeric/random.ts';
import type { BatterBalls } from './batter-balls.ts';
import { ChanceBoard, type SkillShift } from './chance-board.ts';
import type { WeightedBalls } from './draw-balls.ts';
import type { Interval80 } from './plan-types.ts';
import { type PlanGrounds, stakesOfBalls } from './prepare-plans.ts';
import { quantile, redrawnWeights, weightedMean } from './redrawn-weights.ts';
import type { Settled } from './settle-question.ts';

const PER = 100;
/**
 * One standard deviation of what the fitted chances get wrong about a gain, as a share of it: measured against the demo league's
 * truth (docs/decisions/062-interval-of-a-plan.md).
 */
const MODEL_ERROR_SHARE = 0.05;

/** Prices placements on balls that no plan was made with. */
export class Judge {
  private readonly grounds: PlanGrounds;
  private readonly settled: Settled;
  private readonly batter: BatterBalls;
  private readonly balls: WeightedBalls;
  private readonly stakes: Float64Array;
  private readonly pitcher: Float64Array | null;

  constructor(
    grounds: PlanGrounds,
    settled: Settled,
    batter: BatterBalls,
    balls: WeightedBalls,
    pitcher: Float64Array | null,
  ) {
    this.grounds = grounds;
    this.settled = settled;
    this.batter = batter;
    this.balls = balls;
    this.pitcher = pitcher;
    this.stakes = stakesOfBalls(grounds, balls, settled.state);
  }

  marks(placements: readonly Float64Array[], shiftOf: SkillShift | undefined): Float64Array[] {
    return new ChanceBoard(this.grounds.data, this.balls, this.settled, shiftOf).setMarks(placements);
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

  /** Runs per 100 balls that a difference of set marks is worth, and where it could as well lie; `sd` is what else is uncertain of it. */
  gain(difference: Float64Array, random: Random, sd = 0): Interval80 {
    const runs = difference.map((each, k) => each * this.stakes[k]);
    const value = PER * weightedMean(this.balls.weight, runs);
    const spread = Math.hypot(sd, MODEL_ERROR_SHARE * value);
    const redrawn: number[] = [];
    for (const weight of redrawnWeights(this.batter, this.pitcher, random))
      redrawn.push(PER * weightedMean(weight, runs) + spread * random.normal());
    const sorted = Float64Array.from(redrawn);
    return {
      value,
      lo80: quantile(sorted, 0.1),
      hi80: quantile(sorted, 0.9),
    };
  }
}
