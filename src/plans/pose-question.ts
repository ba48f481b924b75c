import { BatterCase } from './batter-case.ts';
import type { PlanQuestion } from './plan-types.ts';
import type { PlanGrounds } from './prepare-plans.ts';
import { type Settled, settle } from './settle-question.ts';

/** A question with everything that its answer is reckoned from; what is to be minded is among `settled.warnings`. */
export interface Posed {
  readonly settled: Settled;
  readonly batterCase: BatterCase;
  /** Nine (x, y) pairs each. */
  readonly even: Float64Array;
  readonly own: Float64Array;
}

/**
 * `last` is the case of the question before, which serves again when this one is about the same batter.
 * @throws ExpectedFailure `data`: batter, pitcher or club is not in the book, or it has no models
 */
export function poseQuestion(grounds: PlanGrounds, question: PlanQuestion, last?: BatterCase): Posed {
  const settled = settle(grounds, question);
  const batterCase = last?.serves(settled) ? last : new BatterCase(grounds, settled);
  settled.warnings.push(...batterCase.warnings);
  const even = grounds.usual.even(settled.side, settled.state);
  return { settled, batterCase, even, own: ownStarts(grounds, settled, even) };
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
