import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';

describe('createRandom', () => {
  it('repeats itself for a seed and differs for the next one', () => {
    const draw = (seed: number) => {
      const random = createRandom(seed);
      return Array.from({ length: 5 }, () => random.next());
    };
    expect(draw(7)).toEqual(draw(7));
    expect(draw(7)).not.toEqual(draw(8));
  });

  it('forks by label, whatever was drawn before', () => {
    const fresh = createRandom(3);
    const used = createRandom(3);
    used.next();
    expect(used.fork('a').next()).toBe(fresh.fork('a').next());
    expect(fresh.fork('a').next()).not.toBe(fresh.fork('b').next());
  });

  it('has uniform and normal moments within five standard errors, and unrelated near seeds', () => {
    const n = 40_000;
    const random = createRandom(11);
    let sum = 0;
    let normalSum = 0;
    let normalSquares = 0;
    let across = 0;
    for (let i = 0; i < n; i += 1) {
      sum += random.next();
      const z = random.normal();
      normalSum += z;
      normalSquares += z * z;
      across += (createRandom(i).next() - 0.5) * (createRandom(i + 1).next() - 0.5);
    }
    const standardErrors = 5 / Math.sqrt(n);
    expect(Math.abs(sum / n - 0.5)).toBeLessThan(standardErrors * Math.sqrt(1 / 12));
    expect(Math.abs(normalSum / n)).toBeLessThan(standardErrors);
    expect(Math.abs(normalSquares / n - 1)).toBeLessThan(standardErrors * Math.SQRT2);
    expect(Math.abs(across / n)).toBeLessThan(standardErrors / 12);
  });
});
