import { describe, expect, it, test } from 'vitest';
import { finishChances, finishFits, viewFinish } from '../../src/chances/finish-model.ts';
import { selectGrounders } from '../../src/chances/grounders.ts';
import { fitHere } from '../../src/models/fitting.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { slope } from '../helpers/slope.ts';
import { type Fabricated, fabricatePlays } from './fabricated-plays.ts';

test('where no start was seen, the chance is one over all runs and not that of a man who stood at the ball', () => {
  const random = createRandom(4);
  const plays: Fabricated[] = Array.from({ length: 1500 }, (_, k) => {
    const across = 50 * random.next() - 25;
    // A man who waits for the ball throws the runner out; one who had to go far seldom does.
    const outs = random.next() < (Math.abs(across) < 6 ? 0.98 : 0.55) ? 1 : 0;
    const place = [-40 + across, 142] as const;
    return { outs, gatherAt: place, gatherTime: 1.8, ...(k % 3 === 0 ? { starts: { 6: null } } : {}) };
  });
  const grounders = selectGrounders(fabricatePlays(plays));
  const chances = finishChances(fitHere(finishFits(grounders)), grounders);
  const blind = [...chances.keys()].filter((at) => Number.isNaN(grounders.starts[at * 12 + 10]!));
  const sum = (column: ArrayLike<number>) => blind.reduce((total, at) => total + column[at]!, 0);
  expect(blind.length).toBe(500);
  // One standard deviation of the outs of 500 such plays is 10; the level is fitted to them and to the thousand others.
  expect(Math.abs(sum(chances) - sum(grounders.closed))).toBeLessThan(20);
});

test('a man who always gathers at the same spot leaves his arm out of the chances there', () => {
  const random = createRandom(6);
  const men = Array.from({ length: 16 }, (_, k) => ({
    club: `Club ${k}`,
    arm: random.normal(),
    place: [-58 + 2.4 * k, 142] as const,
  }));
  const plays: Fabricated[] = men.flatMap(({ club, arm, place }) =>
    Array.from({ length: 120 }, () => {
      const outs = random.next() < 1 / (1 + Math.exp(-1 - arm)) ? 1 : 0;
      return { club, outs, gatherAt: place, starts: { 6: place }, gatherTime: 1.7 + 0.1 * random.normal() };
    }),
  );
  const train = selectGrounders(fabricatePlays(plays));
  const asked = selectGrounders(
    fabricatePlays(men.map(({ club, place }) => ({ club, gatherAt: place, starts: { 6: place }, gatherTime: 1.7 }))),
  );
  const chances = finishChances(fitHere(finishFits(train)), asked);
  const logits = men.map((_, k) => Math.log(chances[k]! / (1 - chances[k]!)));
  const left = slope(
    logits,
    men.map(({ arm }) => arm),
  );
  // All places are alike, so nothing of an arm belongs to them. Without the men's own term the slope is 0.16.
  expect(Math.abs(left)).toBeLessThan(0.05);
});

describe('the finish model (method.md 3)', () => {
  const random = createRandom(2);
  const chanceOf = (time: number) => 1 / (1 + Math.exp(-4 * (2.1 - time)));
  const plays: Fabricated[] = Array.from({ length: 1600 }, () => {
    const time = 1.2 + 1.6 * random.next();
    const toSecond = random.next() < 0.5;
    const outs = toSecond || random.next() < chanceOf(time) ? 1 : 0;
    const gatherAt = [-38 + 10 * random.normal(), 135 + 6 * random.normal()] as const;
    return { bases: toSecond ? 1 : 0, throwTo: toSecond ? 2 : 1, outs, gatherTime: time, gatherAt };
  });
  const outfield: Fabricated[] = Array.from({ length: 50 }, (_, k) => ({
    gatheredBy: 8,
    outs: k === 0 ? 1 : 0,
    gatherAt: [0, 250] as const,
  }));
  const probes: Fabricated[] = [
    ...[1.3, 1.7, 2.1, 2.5].map((gatherTime) => ({ gatherTime })),
    { gatherTime: null },
    { gatherAt: null, gatherTime: null },
    { bases: 1, throwTo: 0, gatherTime: 2.4 },
    { gatheredBy: 8, outs: 0 },
    { gatheredBy: 0, outs: 0 },
  ].map((play, k) => ({ ...play, id: `probe-${k}`, club: 'Reed' }));
  const train = selectGrounders(fabricatePlays([...plays, ...outfield]));
  const model = fitHere(finishFits(train));
  const asked = selectGrounders(fabricatePlays(probes));
  const chances = finishChances(model, asked);

  it('learns that a late gather is seldom an out', () => {
    [1.3, 1.7, 2.1, 2.5].forEach((time, k) => {
      expect(Math.abs(chances[k]! - chanceOf(time)), `after ${time} s`).toBeLessThan(0.1);
      if (k > 0) expect(chances[k]).toBeLessThan(chances[k - 1]!);
    });
  });

  it('uses place alone without a time, and who gathered alone without either', () => {
    const rate = plays.reduce((sum, { outs }) => sum + outs!, 0) / plays.length;
    for (const k of [4, 5]) {
      expect(chances[k]).toBeGreaterThan(chances[3]!);
      expect(chances[k]).toBeLessThan(chances[0]!);
    }
    expect(Math.abs(chances[5]! - rate)).toBeLessThan(0.3);
  });

  it('takes the base with the best chance where no throw was recorded', () => {
    const view = viewFinish(model, asked, 6);
    expect(view.target).toBe(2);
    expect(view.targetRecorded).toBe(false);
    expect(chances[6]).toBeGreaterThan(0.9);
    const recorded = viewFinish(model, asked, 0);
    expect(recorded.target).toBe(1);
    expect(recorded.targetRecorded).toBe(true);
    // From (-38, 132) to first base at (63.64, 63.64); 4.35 s to first less 1.3 s.
    expect(recorded.throwFt).toBeCloseTo(Math.hypot(38 + 63.6396, 132 - 63.6396), 3);
    expect(recorded.timeLeftS).toBeCloseTo(3.05, 12);
  });

  it('gives outfielders their plain rate, and nothing where nobody gathered', () => {
    expect(chances[7]).toBe(1 / 50);
    expect(chances[8]).toBe(0);
    expect(fitHere(finishFits(asked)).outfieldRate).toBe(0);
  });

  it('throws no harder for knowing less: means over the plays it was fitted on are the outs made', () => {
    const fitted = finishChances(model, train);
    const sum = (column: ArrayLike<number>) => Array.from(column).reduce((a, b) => a + b, 0);
    expect(Math.abs(sum(fitted) - sum(train.closed))).toBeLessThan(2);
  });
});
