import fc from 'fast-check';
import { expect, test } from 'vitest';
import { allocateBallPath } from '../../../src/league/physics/ball-path.ts';
import { bounce } from '../../../src/league/physics/bounce.ts';
import { DIRT, GRASS, groundAt, TURF } from '../../../src/league/physics/ground.ts';
import { traceBall } from '../../../src/league/physics/trace-ball.ts';

const path = allocateBallPath();
const fair = (launchAngleDeg: number, exitSpeedMph: number, bearingDeg = 0, surface = 1) => {
  traceBall({ exitSpeedMph, launchAngleDeg, bearingDeg, surface, kickDeg: 0, hop: 1 }, path);
  return path;
};
const energy = (v: { x: number; y: number; z: number }) => v.x * v.x + v.y * v.y + v.z * v.z;

test('a flat contact keeps the published share of energy on turf and on dirt (Farlow 2018: .74, .84)', () => {
  for (const [ground, kept] of [
    [TURF, 0.74],
    [DIRT, 0.84],
  ] as const) {
    const v = { x: 30, y: 100, z: -20 };
    const before = energy(v);
    bounce(v, ground, 1);
    expect(energy(v) / before).toBeCloseTo(kept, 10);
    expect(v.z).toBeGreaterThan(0);
  }
});

test('no contact makes energy, flat speed or direction out of nothing', () => {
  const speed = fc.double({ min: -150, max: 150, noNaN: true });
  fc.assert(
    fc.property(speed, speed, fc.double({ min: 3, max: 120, noNaN: true }), (x, y, down) => {
      for (const ground of [TURF, DIRT, GRASS]) {
        const v = { x, y, z: -down };
        bounce(v, ground, 1);
        expect(energy(v)).toBeLessThanOrEqual(ground.energyKept * (x * x + y * y + down * down) + 1e-9);
        expect(Math.hypot(v.x, v.y)).toBeLessThanOrEqual(Math.hypot(x, y) + 1e-9);
        expect(v.x * y - v.y * x).toBeCloseTo(0, 6);
      }
    }),
  );
});

test('a grounder only ever goes away from home, ever more slowly along the ground', () => {
  const launch = fc.double({ min: -40, max: 2, noNaN: true });
  fc.assert(
    fc.property(
      launch,
      fc.double({ min: 40, max: 110, noNaN: true }),
      fc.constantFrom(1, 2),
      (angle, speed, surface) => {
        fair(angle, speed, 10, surface);
        let flatBefore = Number.POSITIVE_INFINITY;
        for (let i = 1; i < path.steps; i += 1) {
          const r = Math.hypot(path.x[i]!, path.y[i]!);
          const before = Math.hypot(path.x[i - 1]!, path.y[i - 1]!);
          if (r > 325) return;
          expect(r).toBeGreaterThanOrEqual(before);
          const flat = r - before;
          expect(flat).toBeLessThanOrEqual(flatBefore + 1e-9);
          flatBefore = flat;
        }
      },
    ),
    { numRuns: 40 },
  );
});

test('without the air a ball would fly the parabola; with it, it falls shorter and stays in the plane', () => {
  fair(20, 80, -30);
  const v = (80 * 5280) / 3600;
  const vacuum = (v * v * Math.sin((40 * Math.PI) / 180)) / 32.174;
  const carry = Math.hypot(path.x[path.landing]!, path.y[path.landing]!);
  expect(carry).toBeLessThan(vacuum);
  expect(carry).toBeGreaterThan(0.6 * vacuum);
  expect((Math.atan2(path.x[path.landing]!, path.y[path.landing]!) * 180) / Math.PI).toBeCloseTo(-30, 6);
});

test('a harder ball gets to the infield sooner, and dirt and grass lie where they should', () => {
  const timeTo = (mph: number) => {
    fair(-5, mph);
    let i = 0;
    while (i < path.steps && path.y[i]! < 130) i += 1;
    return i;
  };
  expect(timeTo(100)).toBeLessThan(timeTo(85));
  expect(timeTo(85)).toBeLessThan(timeTo(70));
  expect(groundAt(0, 100, 1)).toBe(GRASS);
  expect(groundAt(0, 140, 1)).toBe(DIRT);
  expect(groundAt(0, 250, 1)).toBe(GRASS);
  expect(groundAt(0, 140, 2)).toBe(TURF);
});

test('a ball that clears the fence in the air is gone, and one that reaches it on the ground is not', () => {
  expect(fair(28, 112).gone).toBe(true);
  expect(fair(8, 100).gone).toBe(false);
});
