import { describe, expect, it } from 'vitest';
import { possibleTargets } from '../../src/chances/gathers.ts';

describe('possibleTargets', () => {
  it('are first, the bases that a runner is forced to, and home with a man on third', () => {
    // Bits: 1 first, 2 second, 4 third.
    expect([0, 1, 2, 3, 4, 5, 6, 7].map(possibleTargets)).toEqual([
      [1],
      [1, 2],
      [1],
      [1, 2, 3],
      [1, 4],
      [1, 2, 4],
      [1, 4],
      [1, 2, 3, 4],
    ]);
  });
});
