import { expect, it } from 'vitest';
import { selectGrounders } from '../../src/chances/grounders.ts';
import { NearbyOutShares } from '../../src/ledger/nearby-out-shares.ts';
import { type Fabricated, fabricatePlays } from '../chances/fabricated-plays.ts';

function shares(plays: readonly Fabricated[], at: number): number[] {
  const out = new Float64Array(12);
  const grounders = selectGrounders(fabricatePlays(plays));
  new NearbyOutShares(grounders).sharesInto(grounders.bearingDeg[at]!, out, 6);
  expect(Array.from(out.subarray(0, 6))).toEqual([0, 0, 0, 0, 0, 0]);
  return Array.from(out.subarray(6));
}

it('gives each infielder his part of the outs on balls within six degrees', () => {
  const plays: Fabricated[] = [
    { bearing: -15, gatheredBy: 6 },
    { bearing: -10, gatheredBy: 6 },
    { bearing: -20.9, gatheredBy: 5 },
    { bearing: -12, gatheredBy: 1 },
    { bearing: -8, gatheredBy: 4 },
    { bearing: -15, gatheredBy: 6, outs: 0 },
    { bearing: -15, gatheredBy: 7, outs: 0 },
  ];
  expect(shares(plays, 0)).toEqual([0.25, 0, 0, 0, 0.25, 0.5]);
});

it('counts all outs for a ball of unknown bearing', () => {
  const plays: Fabricated[] = [
    { bearing: Number.NaN, gatheredBy: 4 },
    { bearing: 40, gatheredBy: 3 },
    { bearing: -40, gatheredBy: 5 },
    { bearing: 15, gatheredBy: 4 },
  ];
  expect(shares(plays, 0)).toEqual([0, 0, 0.25, 0.5, 0.25, 0]);
});

it('gives nothing when there was no out near', () => {
  expect(shares([{ bearing: 0, outs: 0, gatheredBy: 8 }], 0)).toEqual([0, 0, 0, 0, 0, 0]);
});
