import { type Advancement, TURNS, type Turn, type Way } from './advancement.ts';
import { BASE_OUT_STATES, INNING_OVER } from './base-out.ts';

/** Runs that an event is worth to the batting side. */
export interface EventValue {
  /** By base-out state, outs * 8 + bases. */
  readonly byState: Float64Array;
  /** Mean over the states as they occur. */
  readonly neutral: number;
}

export type EventValues = Readonly<Record<Turn, EventValue>>;

/** A run table as far as values go, and how often each state occurs. */
export interface ValuedStates {
  readonly runs: ArrayLike<number>;
  /** Weights of the states, such as plays that began in them. */
  readonly plays: ArrayLike<number>;
}

/**
 * Value of each event in each state s: the sum over its ways of chance (runs + E(after)) less E(s), with E(after) 0 once the half
 * inning is over (Lindsey, Operations Research 11(4), 1963). Throws RangeError when no state has a weight.
 */
export function eventValues(table: ValuedStates, advancement: Advancement): EventValues {
  const valued = TURNS.map((turn) => [turn, eventValue(table, advancement[turn])] as const);
  return Object.fromEntries(valued) as Record<Turn, EventValue>;
}

/** The same for one event. */
export function eventValue(table: ValuedStates, ways: readonly (readonly Way[])[]): EventValue {
  const byState = Float64Array.from(ways, (own, state) => runsOf(table.runs, own) - table.runs[state]);
  return { byState, neutral: weightedMean(byState, table.plays) };
}

/** Expected runs from a play on to the end of the half inning. */
export function runsOf(runs: ArrayLike<number>, ways: readonly Way[]): number {
  return ways.reduce((sum, way) => sum + way.chance * (way.runs + (way.to === INNING_OVER ? 0 : runs[way.to])), 0);
}

function weightedMean(values: ArrayLike<number>, weights: ArrayLike<number>): number {
  let sum = 0;
  let total = 0;
  for (let state = 0; state < BASE_OUT_STATES; state += 1) {
    sum += weights[state] * values[state];
    total += weights[state];
  }
  if (!(total > 0)) throw new RangeError('values of events need states that occur; all 24 weights are zero');
  return sum / total;
}
