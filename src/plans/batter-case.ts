import { hashText } from '../numeric/hash.ts';
import { createRandom, type Random } from '../numeric/random.ts';
import { type BatterBalls, fitBatterBalls } from './batter-balls.ts';
import { drawBalls, INFIELD_COUNTS, judgingBalls, OUTFIELD_COUNTS, type WeightedBalls } from './draw-balls.ts';
import type { JudgedFrom } from './judge-plan.ts';
import type { PlanQuestion } from './plan-types.ts';
import type { PlanGrounds } from './prepare-plans.ts';
import { RedrawnGains } from './redrawn-gains.ts';
import { redrawnFrom } from './redrawn-weights.ts';
import { personIndex, type Settled } from './settle-question.ts';

const FEW_BALLS = 30;
/** Nobody on and nobody out: the luck of this state serves for all. */
const NO_STATE = 0;

/**
 * One batter from one side, off one pitcher if he was named: the balls that plans against him are made with and judged by, and
 * how sure they are. All of it is the same in every situation, the luck of the draws included (docs/decisions/064), so that his
 * plans share one case. What costs is reckoned when it is first asked for.
 */
export class BatterCase {
  /** Balls of this batter from this side that were seen. */
  readonly seenCount: number;
  readonly balls: BatterBalls;
  /** Tilt of the pitcher's balls; null when no pitcher was named, or nothing was seen of him. */
  readonly pitcher: Float64Array | null;
  readonly warnings: readonly string[];
  /** The same luck for all batters of a side: their plans differ by their balls and not by the draw. */
  readonly seed: number;
  readonly random: Random;
  private readonly grounds: PlanGrounds;
  private readonly settled: Settled;
  private drawn: WeightedBalls | undefined;
  private judged: WeightedBalls | undefined;
  private redraw: RedrawnGains | undefined;

  /** @throws ExpectedFailure `data`: the pitcher is not in the book */
  constructor(grounds: PlanGrounds, settled: Settled) {
    const { side, question } = settled;
    const numbers = ballsOfSide(grounds, grounds.ofBatter.get(settled.batter), side);
    this.grounds = grounds;
    this.settled = settled;
    this.seenCount = numbers.length;
    this.balls = fitBatterBalls(grounds.data.table, grounds.sides[side], numbers, grounds.lastDay, grounds.settings);
    this.pitcher = pitcherTilt(grounds, question, side);
    this.warnings = warningsOf(question, numbers.length, this.pitcher);
    this.seed = hashText(`${side} ${NO_STATE}`, question.seed ?? 1);
    this.random = createRandom(this.seed);
  }

  /** Whether it is the case of another question, too. */
  serves({ batter, side, question }: Settled): boolean {
    const own = this.settled;
    return (
      batter === own.batter &&
      side === own.side &&
      question.pitcher === own.question.pitcher &&
      question.seed === own.question.seed &&
      question.outfield === own.question.outfield
    );
  }

  /** Balls to make plans with. */
  get sample(): WeightedBalls {
    const counts = this.settled.question.outfield ? OUTFIELD_COUNTS : INFIELD_COUNTS;
    this.drawn ??= drawBalls(this.balls, counts, this.carry, this.pitcher, this.random.fork('sample'));
    return this.drawn;
  }

  /** Other balls, to judge plans by. */
  get judging(): WeightedBalls {
    this.judged ??= judgingBalls(this.balls, this.carry, this.pitcher, this.random.fork('judging'));
    return this.judged;
  }

  get judgedFrom(): JudgedFrom {
    return { ...redrawnFrom(this.balls), pitcher: this.pitcher };
  }

  /** Weights of the judging balls as they could as well have been. */
  get redrawn(): RedrawnGains {
    this.redraw ??= new RedrawnGains(this.judgedFrom, this.pitcher, this.random.fork('interval'));
    return this.redraw;
  }

  private get carry() {
    return this.grounds.data.air?.carry ?? null;
  }
}

function ballsOfSide({ balls, data: { table } }: PlanGrounds, numbers: readonly number[] | undefined, side: number) {
  return (numbers ?? []).filter((k) => table.batterSide[balls.row[k]] === side);
}

function pitcherTilt(grounds: PlanGrounds, { pitcher }: PlanQuestion, side: number): Float64Array | null {
  if (pitcher === undefined) return null;
  const numbers = ballsOfSide(grounds, grounds.ofPitcher.get(personIndex(grounds, pitcher, 'pitcher')), side);
  if (numbers.length === 0) return null;
  const { data, sides, lastDay, settings } = grounds;
  const asPitcher = { ...settings, precision: settings.pitcherPrecision };
  return fitBatterBalls(data.table, sides[side], numbers, lastDay, asPitcher).tilt.theta;
}

function warningsOf({ pitcher }: PlanQuestion, seenCount: number, tilt: Float64Array | null): string[] {
  const warnings: string[] = [];
  if (seenCount === 0)
    warnings.push('No ball of this batter from this side was seen: the plan is for an average batter of his side.');
  else if (seenCount < FEW_BALLS)
    warnings.push(`Only ${seenCount} of his balls were seen: the plan is mostly for an average batter of his side.`);
  if (pitcher !== undefined && tilt === null)
    warnings.push('No ball off this pitcher to this side was seen: he changes nothing.');
  return warnings;
}
