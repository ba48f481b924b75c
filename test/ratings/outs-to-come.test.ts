import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { INTERVAL_LEVELS, intervalOf } from '../../src/ratings/intervals.ts';
import { intervalToCome, inUnits, outsToCome } from '../../src/ratings/outs-to-come.ts';

const RATING = { mean: 1.5, sd: 3 };
const VARIANCE = 0.1;

describe('outs to come', () => {
  it('are inside their intervals as often as the intervals say, when chances vary widely', () => {
    const chances = { mean: 40, sd: 32 };
    const outs = outsToCome(RATING, chances, VARIANCE);
    const random = createRandom(5);
    const spread = Math.sqrt(Math.log(1 + (chances.sd / chances.mean) ** 2));
    const drawn = Array.from({ length: 20_000 }, () => {
      const n = chances.mean * Math.exp(spread * random.normal() - spread ** 2 / 2);
      const rate = (RATING.mean + RATING.sd * random.normal()) / 100;
      return rate * n + Math.sqrt(VARIANCE * n) * random.normal();
    });
    for (const level of INTERVAL_LEVELS) {
      const [lo, hi] = intervalToCome(outs, level);
      const inside = drawn.filter((value) => lo <= value && value <= hi).length / drawn.length;
      // Nine numbers of chances stand for all: the ends of the tails are beyond them.
      expect(Math.abs(inside - level / 100), `${level} %`).toBeLessThan(0.015);
    }
    // A normal of the same standard deviation would hold more of them.
    const [lo, hi] = intervalOf(outs, 80);
    expect(drawn.filter((value) => lo <= value && value <= hi).length / drawn.length).toBeGreaterThan(0.82);
  });

  it('are a normal when the chances are known', () => {
    const outs = outsToCome(RATING, { mean: 200, sd: 0 }, VARIANCE);
    const [normal, own] = [intervalOf(outs, 80), intervalToCome(outs, 80)];
    for (const end of [0, 1] as const) expect(Math.abs(own[end] - normal[end])).toBeLessThan(1e-5 * outs.sd);
  });

  it('are none of a man who is not expected to play', () => {
    const outs = outsToCome(RATING, { mean: 0, sd: 0 }, VARIANCE);
    expect(intervalToCome(outs, 80)).toEqual([0, 0]);
  });

  it('are the same in runs, each worth as much', () => {
    const outs = outsToCome(RATING, { mean: 150, sd: 60 }, VARIANCE);
    const [lo, hi] = intervalToCome(outs, 80);
    const runs = inUnits(outs, 0.75);
    expect(runs.mean).toBe(0.75 * outs.mean);
    expect(Math.abs(intervalToCome(runs, 80)[0] - 0.75 * lo)).toBeLessThan(1e-5);
    expect(Math.abs(intervalToCome(runs, 80)[1] - 0.75 * hi)).toBeLessThan(1e-5);
  });
});
