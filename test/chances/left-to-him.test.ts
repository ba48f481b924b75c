import fc from 'fast-check';
import { expect, test } from 'vitest';
import { leftToHim } from '../../src/chances/left-to-him.ts';

const chance = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true });

test('a ball that nobody before him could have had is his as by his own run, and the more they could the more it is his', () => {
  fc.assert(
    fc.property(chance, chance, chance, (reach, a, b) => {
      expect(leftToHim(reach, 1)).toBeCloseTo(reach, 12);
      const [little, much] = [Math.min(a, b), Math.max(a, b)];
      expect(leftToHim(reach, little)).toBeGreaterThanOrEqual(leftToHim(reach, much) - 1e-15);
      expect(leftToHim(reach, a)).toBeGreaterThanOrEqual(reach - 1e-15);
      expect(leftToHim(reach, a)).toBeLessThanOrEqual(1);
      // The odds of missing it fall in proportion.
      const given = leftToHim(reach, a);
      expect((1 - given) / given).toBeCloseTo(((1 - reach) / reach) * a, 6);
    }),
  );
});
