import { expect, it } from 'vitest';
import { NormalMixture } from '../../src/ratings/normal-mixture.ts';

it('has the moments of two normals weighed three to one, by hand', () => {
  const mixture = new NormalMixture();
  mixture.add(1, 4, 3);
  mixture.add(5, 2);
  const { mean, sd } = mixture.estimate();
  // Mean (3 + 5) / 4; variance (3 * 4 + 2) / 4 within and (3 * 1 + 9) / 4 between.
  expect(mean).toBe(2);
  expect(sd).toBeCloseTo(Math.sqrt(3.5 + 3), 12);
});
