import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alongLineFt, gapFt } from '../../src/diamond/ball-line.ts';
import { bearingDegOf, radians } from '../../src/diamond/bearing.ts';
import { BASE_SPOTS } from '../../src/diamond/field.ts';

const degrees = fc.double({ min: -60, max: 60, noNaN: true });
const feet = fc.double({ min: -200, max: 200, noNaN: true });
const depth = fc.double({ min: 5, max: 400, noNaN: true });

describe('bearing', () => {
  it('is 0 over second base, +45 on the first-base line, -45 on the third-base line (data contract)', () => {
    const of = (base: number) => bearingDegOf(BASE_SPOTS[base]!.x, BASE_SPOTS[base]!.y);
    expect(of(1)).toBeCloseTo(45, 12);
    expect(of(2)).toBe(0);
    expect(of(3)).toBeCloseTo(-45, 12);
  });

  it('comes back from a spot at that bearing', () => {
    fc.assert(
      fc.property(degrees, depth, (bearing, distance) => {
        const angle = radians(bearing);
        expect(bearingDegOf(distance * Math.sin(angle), distance * Math.cos(angle))).toBeCloseTo(bearing, 9);
      }),
      { seed: 9 },
    );
    expect(radians(180)).toBeCloseTo(Math.PI, 15);
  });
});

describe('gap and distance along the line', () => {
  const line = (bearing: number) => [Math.sin(radians(bearing)), Math.cos(radians(bearing))] as const;

  it('are those of method.md 1: r cos(delta) and r sin(delta), delta from the defender to the ball', () => {
    fc.assert(
      fc.property(degrees, degrees, depth, (ball, man, r) => {
        const delta = radians(ball - man);
        const [x, y] = [r * Math.sin(radians(man)), r * Math.cos(radians(man))];
        expect(alongLineFt(...line(ball), x, y)).toBeCloseTo(r * Math.cos(delta), 8);
        expect(gapFt(...line(ball), x, y)).toBeCloseTo(r * Math.sin(delta), 8);
      }),
      { seed: 10 },
    );
  });

  it('are the sides of a right triangle', () => {
    fc.assert(
      fc.property(degrees, feet, feet, (ball, x, y) => {
        const [along, gap] = [alongLineFt(...line(ball), x, y), gapFt(...line(ball), x, y)];
        expect(Math.hypot(along, gap)).toBeCloseTo(Math.hypot(x, y), 8);
      }),
      { seed: 11 },
    );
  });

  it('have a sign: plus when the ball passes a man on his first-base side', () => {
    // A shortstop at 15 degrees toward third; a ball over second base passes toward first of him.
    const [x, y] = [148 * Math.sin(radians(-15)), 148 * Math.cos(radians(-15))];
    expect(gapFt(...line(0), x, y)).toBeGreaterThan(0);
    expect(gapFt(...line(-30), x, y)).toBeLessThan(0);
    expect(gapFt(...line(-15), x, y)).toBeCloseTo(0, 12);
    expect(alongLineFt(...line(0), 0, -3)).toBe(-3);
  });
});
