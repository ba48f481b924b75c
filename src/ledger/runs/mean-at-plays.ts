import { BASE_OUT_STATES } from './base-out.ts';
import type { PlaySequence } from './play-sequence.ts';

/** Runs to the end of the half inning over the plays that began in each state; NaN for a state without plays. */
export interface MeanAtPlays {
  readonly mean: Float64Array;
  readonly plays: Float64Array;
  /** Half innings with a play that began in the state. */
  readonly innings: Float64Array;
}

export function meanAtPlays(sequence: PlaySequence): MeanAtPlays {
  const mean = new Float64Array(BASE_OUT_STATES);
  const plays = new Float64Array(BASE_OUT_STATES);
  const seen = new Set<number>();
  for (let at = 0; at < sequence.count; at += 1) {
    const state = sequence.before[at];
    mean[state] += sequence.runsRest[at];
    plays[state] += 1;
    seen.add(sequence.half[at] * BASE_OUT_STATES + state);
  }
  const innings = new Float64Array(BASE_OUT_STATES);
  for (const key of seen) innings[key % BASE_OUT_STATES] += 1;
  return { mean: mean.map((sum, state) => sum / plays[state]), plays, innings };
}

/**
 * Standard errors of weights x mean (24 x 24, row by row), clustered by half inning: the plays of an inning share their runs.
 * Each half inning's influence on value k is the sum over its plays of weights[k, state] (runs - mean[state]) / plays[state];
 * the squares are added up and multiplied by C / (C - 1).
 */
export function clusteredErrors(sequence: PlaySequence, means: MeanAtPlays, weights: Float64Array): Float64Array {
  const influences = new Map<number, Float64Array>();
  for (let at = 0; at < sequence.count; at += 1) {
    let influence = influences.get(sequence.half[at]);
    if (influence === undefined) {
      influence = new Float64Array(BASE_OUT_STATES);
      influences.set(sequence.half[at], influence);
    }
    const state = sequence.before[at];
    const off = (sequence.runsRest[at] - means.mean[state]) / means.plays[state];
    for (let k = 0; k < BASE_OUT_STATES; k += 1) influence[k] += weights[k * BASE_OUT_STATES + state] * off;
  }
  const squares = new Float64Array(BASE_OUT_STATES);
  for (const influence of influences.values())
    for (let k = 0; k < BASE_OUT_STATES; k += 1) squares[k] += influence[k] * influence[k];
  const correction = influences.size / (influences.size - 1);
  return squares.map((sum) => Math.sqrt(sum * correction));
}
