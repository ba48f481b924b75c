import { hashText } from '../numeric/hash.ts';
import { createRandom, type Random } from '../numeric/random.ts';
import { type BatterBalls, fitBatterBalls } from './batter-balls.ts';
import type { PlanQuestion } from './plan-types.ts';
import type { PlanGrounds } from './prepare-plans.ts';
import { personIndex, type Settled, settle } from './settle-question.ts';

const FEW_BALLS = 30;

/** A question with everything that its answer is reckoned from; what is to be minded is among `settled.warnings`. */
export interface Posed {
  readonly settled: Settled;
  /** Balls of this batter from this side that were seen. */
  readonly seenCount: number;
  readonly batter: BatterBalls;
  /** Tilt of the pitcher's balls; null when no pitcher was named. */
  readonly pitcher: Float64Array | null;
  /** Nine (x, y) pairs each. */
  readonly even: Float64Array;
  readonly own: Float64Array;
  /** The same luck for all batters of a side: their plans differ by their balls and not by the draw. */
  readonly seed: number;
  readonly random: Random;
}

/** @throws ExpectedFailure `data`: batter, pitcher or club is not in the book, or it has no models */
export function poseQuestion(grounds: PlanGrounds, question: PlanQuestion): Posed {
  const settled = settle(grounds, question);
  const { side, state, warnings } = settled;
  const seed = hashText(`${side} ${state}`, question.seed ?? 1);
  const numbers = ballsOfSide(grounds, grounds.ofBatter.get(settled.batter), side);
  warnAboutBalls(numbers.length, warnings);
  const even = grounds.usual.even(side, state);
  return {
    settled,
    seenCount: numbers.length,
    batter: fitBatterBalls(grounds.data.table, grounds.sides[side], numbers, grounds.lastDay, grounds.settings),
    pitcher: pitcherTilt(grounds, question, side, warnings),
    even,
    own: ownStarts(grounds, settled, even),
    seed,
    random: createRandom(seed),
  };
}

function ballsOfSide({ balls, data: { table } }: PlanGrounds, numbers: readonly number[] | undefined, side: number) {
  return (numbers ?? []).filter((k) => table.batterSide[balls.row[k]] === side);
}

function warnAboutBalls(count: number, warnings: string[]): void {
  if (count === 0)
    warnings.push('No ball of this batter from this side was seen: the plan is for an average batter of his side.');
  else if (count < FEW_BALLS)
    warnings.push(`Only ${count} of his balls were seen: the plan is mostly for an average batter of his side.`);
}

function pitcherTilt(
  grounds: PlanGrounds,
  { pitcher }: PlanQuestion,
  side: number,
  warnings: string[],
): Float64Array | null {
  if (pitcher === undefined) return null;
  const numbers = ballsOfSide(grounds, grounds.ofPitcher.get(personIndex(grounds, pitcher, 'pitcher')), side);
  if (numbers.length === 0) {
    warnings.push('No ball off this pitcher to this side was seen: he changes nothing.');
    return null;
  }
  const { data, sides, lastDay, settings } = grounds;
  const asPitcher = { ...settings, precision: settings.pitcherPrecision };
  return fitBatterBalls(data.table, sides[side], numbers, lastDay, asPitcher).tilt.theta;
}

/** Where the club usually has the men who are placed; the others stay at their even spots, so that only the placed ones are compared. */
function ownStarts(
  grounds: PlanGrounds,
  { team, side, state, movers, warnings, question }: Settled,
  even: Float64Array,
) {
  const usual = grounds.usual.own(team, side, state);
  if (usual === null) {
    warnings.push(
      `Too few plays of ${question.defence} were seen against this side: its own starts are taken to be the even spots.`,
    );
    return even;
  }
  const own = even.slice();
  for (const position of movers) own.set(usual.subarray(2 * position - 2, 2 * position), 2 * position - 2);
  return own;
}
