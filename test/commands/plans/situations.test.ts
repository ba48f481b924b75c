import { expect, it } from 'vitest';
import { parseSituations, USUAL_SITUATIONS } from '../../../src/commands/plans/situations.ts';

it('reads situations, and nothing else', () => {
  expect(parseSituations('0:---,1:1-3,2:none')).toEqual([
    { outs: 0, bases: 0 },
    { outs: 1, bases: 5 },
    { outs: 2, bases: 0 },
  ]);
  expect(parseSituations(USUAL_SITUATIONS)).toHaveLength(8);
  expect(new Set(parseSituations('every')!.map(({ outs, bases }) => outs * 8 + bases)).size).toBe(24);
  for (const wrong of ['', '3:---', '1', '1:4', '1:1-3:2', '0:---,', '1:31'])
    expect(parseSituations(wrong), wrong).toBeNull();
});
