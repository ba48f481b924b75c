import { describe, expect, it } from 'vitest';
import { FLAT_TURN_STAKE_RUNS } from '../../src/ledger/turn-stake.ts';

/**
 * Lindsey 1963 (Operations Research 11(4); two decimals read in Albert 2015, the third from memory), by outs and occupied bases.
 * The second out: the runner from first forced at second and the batter safe, against both out; the other runners go up a
 * base, and a run counts unless the second out is the third.
 */
const BY_HAND: readonly (readonly [name: string, plays: number, runs: number])[] = [
  // Nobody out: 1-- with one out, against bases empty with two.
  ['1--, 0', 6805, 0.498 - 0.102],
  // 12-: 1-3 with one out, against --3 with two.
  ['12-, 0', 1621, 1.115 - 0.355],
  // 1-3 and 123: as those, and the run scores either way.
  ['1-3, 0', 869, 0.498 - 0.102],
  ['123, 0', 316, 1.115 - 0.355],
  // One out: the inning goes on with two, or is over.
  ['1--, 1', 9463, 0.219],
  ['12-, 1', 2720, 0.532],
  // The run that scored on the force does not count when the second out is the third.
  ['1-3, 1', 2094, 1 + 0.219],
  ['123, 1', 722, 1 + 0.532],
];

describe('the flat stake of a turn', () => {
  it('is the mean under the published run table, to two decimals', () => {
    // Plays by state: the possible turns of three demo seasons of 120,000 balls (30 clubs, seed 7).
    const total = BY_HAND.reduce((sum, [, plays]) => sum + plays, 0);
    const mean = BY_HAND.reduce((sum, [, plays, value]) => sum + plays * value, 0) / total;
    expect(Math.round(100 * mean) / 100).toBe(FLAT_TURN_STAKE_RUNS);
  });
});
