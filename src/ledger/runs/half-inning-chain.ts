import { LuDecomposition, Matrix } from 'ml-matrix';
import { type Advancement, TURNS, type Turn } from './advancement.ts';
import { BASE_OUT_STATES, INNING_OVER } from './base-out.ts';

/** Chances of the events of a turn at bat; they add up to one. */
export type TurnRates = Readonly<Record<Turn, number>>;

/** More runs than this are pooled in the last place of a distribution. */
const MOST_RUNS = 20;

/** What the chain says. Columns by base-out state where not said otherwise. */
export interface HalfInningChain {
  /** Expected runs to the end of the half inning. */
  readonly runs: Float64Array;
  /** Expected turns at bat to the end of the half inning. */
  readonly batters: Float64Array;
  /** Expected turns at bat that begin in each state, in a half inning from its start. */
  readonly visits: Float64Array;
  /** Chance of exactly 0, 1, ... runs in a half inning from its start; the last place holds all that is more. */
  readonly distribution: Float64Array;
}

/**
 * A half inning as an absorbing Markov chain over the 24 base-out states (Cover & Keilers, Operations Research 25(5), 1977).
 * With Q the chances to go from state to state and r the mean runs of a turn at bat, expected runs are E = (I - Q)^-1 r,
 * turns at bat (I - Q)^-1 1, visits (I - Q')^-1 e_0. The distribution of runs follows run by run: f_n = (I - Q_0)^-1
 * (a_n + sum over k >= 1 of Q_k f_(n-k)), Q_k the transitions on which k runs score and a_n the chance that the inning ends on a
 * play with n runs.
 *
 * Throws RangeError for rates that are negative or do not add up to one, and when nobody is ever out.
 */
export function halfInningChain(rates: TurnRates, advancement: Advancement): HalfInningChain {
  checkRates(rates);
  const steps = Array.from({ length: 5 }, () => Matrix.zeros(BASE_OUT_STATES, BASE_OUT_STATES));
  const ends = Array.from({ length: 5 }, () => new Float64Array(BASE_OUT_STATES));
  const meanRuns = new Float64Array(BASE_OUT_STATES);
  for (const turn of TURNS) {
    advancement[turn].forEach((ways, state) => {
      for (const { chance, runs, to } of ways) {
        const p = rates[turn] * chance;
        meanRuns[state] += p * runs;
        if (to === INNING_OVER) ends[runs][state] += p;
        else steps[runs].set(state, to, steps[runs].get(state, to) + p);
      }
    });
  }
  const all = steps.reduce((sum, step) => Matrix.add(sum, step), Matrix.zeros(BASE_OUT_STATES, BASE_OUT_STATES));
  const identity = Matrix.eye(BASE_OUT_STATES);
  const whole = new LuDecomposition(Matrix.sub(identity, all));
  const start = new Float64Array(BASE_OUT_STATES);
  start[0] = 1;
  return {
    runs: solve(whole, meanRuns),
    batters: solve(whole, new Float64Array(BASE_OUT_STATES).fill(1)),
    visits: solve(new LuDecomposition(Matrix.sub(identity, all).transpose()), start),
    distribution: distributionOf(steps, ends, new LuDecomposition(Matrix.sub(identity, steps[0]))),
  };
}

function distributionOf(
  steps: readonly Matrix[],
  ends: readonly Float64Array[],
  withoutRuns: LuDecomposition,
): Float64Array {
  const exactly: Float64Array[] = [];
  for (let n = 0; n < MOST_RUNS; n += 1) {
    const right = Float64Array.from(ends[n] ?? new Float64Array(BASE_OUT_STATES));
    for (let k = 1; k < steps.length && k <= n; k += 1) {
      const carried = steps[k].mmul(Matrix.columnVector(exactly[n - k])).to1DArray();
      for (let state = 0; state < BASE_OUT_STATES; state += 1) right[state] += carried[state];
    }
    exactly.push(solve(withoutRuns, right));
  }
  const fromStart = exactly.map((chances) => chances[0]);
  const more = 1 - fromStart.reduce((sum, p) => sum + p, 0);
  return Float64Array.from([...fromStart, Math.max(more, 0)]);
}

function solve(factors: LuDecomposition, right: Float64Array): Float64Array {
  return Float64Array.from(factors.solve(Matrix.columnVector(right)).to1DArray());
}

function checkRates(rates: TurnRates): void {
  const total = TURNS.reduce((sum, turn) => sum + rates[turn], 0);
  if (TURNS.some((turn) => !(rates[turn] >= 0)) || Math.abs(total - 1) > 1e-9)
    throw new RangeError(
      `chances of a turn at bat must be zero or more and add up to one, received ${JSON.stringify(rates)}`,
    );
  if (rates.out === 0) throw new RangeError('an inning without outs has no end: the chance of an out is zero');
}
