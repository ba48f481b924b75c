import fc from 'fast-check';
import { expect, test } from 'vitest';
import { addRowInto, CURVE_POINTS, ShiftCurve, WIDEST_SHIFT } from '../../src/ratings/shift-curve.ts';

const logits = fc.array(fc.double({ min: -12, max: 12, noNaN: true }), { minLength: 1, maxLength: 40 });
const shift = fc.double({ min: -WIDEST_SHIFT, max: WIDEST_SHIFT, noNaN: true });

function curveOf(rows: readonly number[]): ShiftCurve {
  const sums = new Float64Array(CURVE_POINTS);
  for (const logit of rows) addRowInto(sums, 0, Math.exp(-logit), 1);
  return new ShiftCurve(sums);
}

test('a curve gives the sum of chances, its slope and its integral as the rows themselves do', () => {
  fc.assert(
    fc.property(logits, shift, (rows, v) => {
      const curve = curveOf(rows);
      curve.at(v);
      let [value, slope, integral] = [0, 0, 0];
      for (const logit of rows) {
        const p = 1 / (1 + Math.exp(-logit - v));
        value += p;
        slope += p * (1 - p);
        integral += Math.log1p(Math.exp(logit + v)) - Math.log1p(Math.exp(logit));
      }
      expect(Math.abs(curve.value - value)).toBeLessThan(2e-9 * rows.length);
      expect(Math.abs(curve.slope - slope)).toBeLessThan(2e-7 * rows.length);
      expect(Math.abs(curve.integral - integral)).toBeLessThan(2e-9 * rows.length);
    }),
    { numRuns: 100 },
  );
});

test('beyond its range a curve goes on along its tangent', () => {
  const curve = curveOf([0.5, -1]);
  curve.at(WIDEST_SHIFT);
  const { value, slope, integral } = curve;
  curve.at(WIDEST_SHIFT + 0.5);
  expect(curve.value).toBeCloseTo(value + 0.5 * slope, 12);
  expect(curve.slope).toBe(slope);
  expect(curve.integral).toBeCloseTo(integral + 0.5 * value + 0.125 * slope, 12);
});
