import fc from 'fast-check';
import { expect, test } from 'vitest';
import { convexHull, isInside, trimmedHull } from '../../src/plans/convex-region.ts';

const points = fc
  .array(fc.double({ min: -200, max: 200, noNaN: true }), { minLength: 6, maxLength: 120 })
  .map((list) => Float64Array.from(list.length % 2 === 0 ? list : list.slice(1)));

test('a hull holds every point and every mixture of two, and its corners are points', () => {
  fc.assert(
    fc.property(points, fc.double({ min: 0, max: 1, noNaN: true }), (list, share) => {
      const hull = convexHull(list);
      fc.pre(hull.length > 4 && areaOf(hull) > 1);
      for (let k = 0; k < list.length; k += 2) {
        const next = (k + 2) % list.length;
        // A hair toward the middle, since a corner may be lost to rounding.
        const x = share * list[k]! + (1 - share) * list[next]!;
        const y = share * list[k + 1]! + (1 - share) * list[next + 1]!;
        const [cx, cy] = centreOf(hull);
        expect(isInside(hull, cx + (x - cx) * (1 - 1e-9), cy + (y - cy) * (1 - 1e-9))).toBe(true);
      }
      for (let k = 0; k < hull.length; k += 2)
        expect(
          [...list.keys()].some((at) => at % 2 === 0 && list[at] === hull[k] && list[at + 1] === hull[k + 1]),
        ).toBe(true);
    }),
  );
});

test('far outside is outside, and a region of a point or a line holds nothing', () => {
  const square = convexHull(Float64Array.of(0, 0, 10, 0, 10, 10, 0, 10, 5, 5));
  expect(square).toHaveLength(8);
  expect(isInside(square, 11, 5)).toBe(false);
  expect(isInside(square, 5, 5)).toBe(true);
  expect(isInside(convexHull(Float64Array.of(1, 1)), 1, 1)).toBe(false);
});

test('the loneliest are left out', () => {
  const crowd = Array.from({ length: 99 }, (_, k) => [k % 10, Math.floor(k / 10)]).flat();
  const hull = trimmedHull(Float64Array.from([...crowd, 500, 500]), 0.01);
  expect(isInside(hull, 400, 400)).toBe(false);
  expect(Math.max(...hull)).toBeLessThan(11);
});

function areaOf(hull: Float64Array): number {
  let twice = 0;
  for (let k = 0; k < hull.length; k += 2) {
    const next = (k + 2) % hull.length;
    twice += hull[k]! * hull[next + 1]! - hull[next]! * hull[k + 1]!;
  }
  return twice / 2;
}

function centreOf(hull: Float64Array): [number, number] {
  let [x, y] = [0, 0];
  for (let k = 0; k < hull.length; k += 2) {
    x += hull[k]!;
    y += hull[k + 1]!;
  }
  return [(2 * x) / hull.length, (2 * y) / hull.length];
}
