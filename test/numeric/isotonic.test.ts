import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isotonicFit, isotonicOn } from '../../src/numeric/isotonic.ts';

const reference = JSON.parse(
  readFileSync(new URL('../../checks/references/scores.json', import.meta.url), 'utf8'),
) as Record<'forecast' | 'outcome' | 'recalibrated' | 'values' | 'weights' | 'isotonic', number[]>;

test("pooling as R's isoreg does it", () => {
  expect([...isotonicFit([1, 0, 4, 3, 3, 5, 4, 2, 0])]).toEqual([0.5, 0.5, 3, 3, 3, 3, 3, 3, 3]);
});

test("scikit-learn's isotonic regression, with weights and with ties", () => {
  isotonicFit(reference.values, reference.weights).forEach((fit, k) => {
    expect(fit).toBeCloseTo(reference.isotonic[k]!, 10);
  });
  isotonicOn(reference.forecast, reference.outcome).forEach((fit, k) => {
    expect(fit).toBeCloseTo(reference.recalibrated[k]!, 10);
  });
});

test('the fit rises, keeps the sum, and leaves a rising sequence alone', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 1, maxLength: 40 }), (values) => {
      const fit = isotonicFit(values);
      for (let i = 1; i < fit.length; i += 1) expect(fit[i]).toBeGreaterThanOrEqual(fit[i - 1]!);
      expect(fit.reduce((a, b) => a + b, 0)).toBeCloseTo(
        values.reduce((a, b) => a + b, 0),
        9,
      );
      const sorted = [...values].sort((a, b) => a - b);
      isotonicFit(sorted).forEach((value, k) => {
        expect(value).toBeCloseTo(sorted[k]!, 12);
      });
    }),
  );
});
