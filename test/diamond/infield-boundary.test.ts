import { expect, test } from 'vitest';
import { radians } from '../../src/diamond/bearing.ts';
import { INFIELD_BOUNDARY, outsideArcFt } from '../../src/diamond/infield-boundary.ts';

test('the arc is as far from home as calculated apart', () => {
  // Radius 95 ft about a centre 60.5 ft from home; distances calculated outside the project.
  const byDegrees = { 0: 155.5, 10: 153.998, 20: 149.571, 30: 142.45, 40: 133.021, 45: 127.603 };
  for (const [degrees, distance] of Object.entries(byDegrees)) {
    for (const side of [-1, 1]) {
      const angle = radians(side * Number(degrees));
      expect(outsideArcFt(distance * Math.sin(angle), distance * Math.cos(angle))).toBeCloseTo(0, 3);
    }
  }
});

test('feet outside are counted straight out from the centre, and less than nothing inside', () => {
  const { centreFt, radiusFt } = INFIELD_BOUNDARY;
  expect(outsideArcFt(0, centreFt + radiusFt + 4)).toBeCloseTo(4, 12);
  expect(outsideArcFt(radiusFt - 2.5, centreFt)).toBeCloseTo(-2.5, 12);
  expect(outsideArcFt(0, centreFt)).toBe(-radiusFt);
});

test('another drawing is another arc: about the centre of the mound it lies a foot and a half nearer over second base', () => {
  const mound = { centreFt: 59, radiusFt: 95 };
  expect(outsideArcFt(0, 154, mound)).toBeCloseTo(0, 12);
  expect(outsideArcFt(0, 154)).toBeCloseTo(-1.5, 12);
});
