import { inverse, Matrix } from 'ml-matrix';
import { type Advancement, SIMPLE_ADVANCEMENT } from './advancement.ts';
import { BASE_OUT_STATES, INNING_OVER } from './base-out.ts';
import type { TurnShares } from './unseen-turns.ts';

/** Expected runs E = constant + weights m, linear in the mean runs m over the plays that began in each state. */
export interface CompletedRuns {
  readonly constant: Float64Array;
  /** 24 x 24, row by row. */
  readonly weights: Float64Array;
}

/**
 * From runs given a ball in play to runs: in each state E = inPlay m + strikeout E(one out more) + walk (runs + E(after)) +
 * homeRun (runs + E(bases empty)), that is E = (I - Q)^-1 (inPlay m + r) with Q and r the transitions and runs of the turns that
 * are not in the book.
 */
export function completeRuns(shares: TurnShares): CompletedRuns {
  const remaining = Matrix.eye(BASE_OUT_STATES);
  const runsUnseen = new Float64Array(BASE_OUT_STATES);
  const unseen: readonly (readonly [keyof Advancement, number])[] = [
    ['out', shares.strikeout],
    ['walk', shares.walk],
    ['home_run', shares.homeRun],
  ];
  for (const [turn, share] of unseen) {
    SIMPLE_ADVANCEMENT[turn].forEach((ways, state) => {
      for (const { chance, runs, to } of ways) {
        runsUnseen[state] += share * chance * runs;
        if (to !== INNING_OVER) remaining.set(state, to, remaining.get(state, to) - share * chance);
      }
    });
  }
  const visits = inverse(remaining);
  return {
    constant: Float64Array.from(visits.mmul(Matrix.columnVector(runsUnseen)).to1DArray()),
    weights: Float64Array.from(visits.mul(shares.inPlay).to1DArray()),
  };
}
