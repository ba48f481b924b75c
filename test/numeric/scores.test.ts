import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { brierScore, clusteredMean, decomposeBrier, logLoss } from '../../src/numeric/scores.ts';

// scikit-learn's numbers; how they were made stands in checks/python/scores.py.
const reference = JSON.parse(
  readFileSync(new URL('../../checks/references/scores.json', import.meta.url), 'utf8'),
) as Record<'forecast' | 'outcome', number[]> & { log_loss: number; brier: number };

test('log loss and Brier score of scikit-learn', () => {
  expect(logLoss(reference.forecast, reference.outcome)).toBeCloseTo(reference.log_loss, 12);
  expect(brierScore(reference.forecast, reference.outcome)).toBeCloseTo(reference.brier, 12);
});

test("Murphy's decomposition of the table in Wilks, Statistical Methods in the Atmospheric Sciences", () => {
  const forecasts = [0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1];
  const shares = [0.006, 0.019, 0.059, 0.15, 0.277, 0.377, 0.511, 0.587, 0.723, 0.779, 0.934, 0.933];
  const weights = [0.4112, 0.0671, 0.1833, 0.0986, 0.0616, 0.0366, 0.0303, 0.0275, 0.0245, 0.022, 0.017, 0.0203];
  // The table is published; the parts to this many places were calculated from it outside this project.
  const parts = decomposeBrier(forecasts, shares, weights);
  expect(parts.reliability).toBeCloseTo(0.00082762, 8);
  expect(parts.resolution).toBeCloseTo(0.06278663, 8);
  expect(parts.uncertainty).toBeCloseTo(0.1354201, 7);
  expect(parts.reliability - parts.resolution + parts.uncertainty).toBeCloseTo(0.07346104, 7);
});

test('with one forecast a group the parts add up to the Brier score', () => {
  const row = fc.tuple(fc.integer({ min: 0, max: 10 }), fc.integer({ min: 0, max: 1 }));
  fc.assert(
    fc.property(fc.array(row, { minLength: 1, maxLength: 60 }), (rows) => {
      const groups = [...new Set(rows.map(([p]) => p))];
      const members = groups.map((p) => rows.filter(([q]) => q === p).map(([, y]) => y as number));
      const parts = decomposeBrier(
        groups.map((p) => p / 10),
        members.map((ys) => ys.reduce((sum, y) => sum + y, 0) / ys.length),
        members.map((ys) => ys.length),
      );
      const whole = brierScore(
        rows.map(([p]) => p / 10),
        rows.map(([, y]) => y),
      );
      expect(parts.reliability - parts.resolution + parts.uncertainty).toBeCloseTo(whole, 12);
    }),
  );
});

test('certainty that was wrong costs much and not infinitely much', () => {
  expect(logLoss([0, 1], [1, 0])).toBeGreaterThan(30);
  expect(logLoss([0, 1], [0, 1])).toBeLessThan(1e-12);
});

test('a clustered mean of single rows has the usual standard error, and copies of a row add no evidence', () => {
  const values = [1, 4, 2, 8, 5, 7];
  const single = clusteredMean(values, [0, 1, 2, 3, 4, 5]);
  const variance = values.reduce((sum, v) => sum + (v - 4.5) ** 2, 0) / 5;
  expect(single.mean).toBeCloseTo(4.5, 12);
  expect(single.se).toBeCloseTo(Math.sqrt(variance / 6), 12);
  const twice = clusteredMean([...values, ...values], [0, 1, 2, 3, 4, 5, 0, 1, 2, 3, 4, 5]);
  expect(twice.se).toBeCloseTo(single.se, 12);
  expect(clusteredMean([1, 2], [3, 3]).se).toBeNaN();
});
