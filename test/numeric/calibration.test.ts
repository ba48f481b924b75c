import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { calibrationByGroup, equalGroups, scoreBrier, wilsonInterval } from '../../src/numeric/calibration.ts';

const reference = JSON.parse(
  readFileSync(new URL('../../checks/references/scores.json', import.meta.url), 'utf8'),
) as Record<'forecast' | 'outcome', number[]> & {
  brier: number;
  brier_recalibrated: number;
  fifths: { expected: number[]; observed: number[] };
};

test("scikit-learn's calibration curve", () => {
  // A forecast on an edge goes to the lower bin there.
  const fifth = reference.forecast.map((p) => [0.2, 0.4, 0.6, 0.8].filter((edge) => edge < p).length);
  const cells = calibrationByGroup(reference.forecast, reference.outcome, fifth, 5);
  cells.forEach((cell, k) => {
    expect(cell.expected).toBeCloseTo(reference.fifths.expected[k]!, 10);
    expect(cell.observed).toBeCloseTo(reference.fifths.observed[k]!, 10);
  });
});

test('the binomial interval holds the share, narrows with rows, and covers as often as it says', () => {
  // 81 of 263: (.255, .366) by hand from Wilson's formula.
  expect(wilsonInterval(81, 263)[0]).toBeCloseTo(0.2553, 4);
  expect(wilsonInterval(81, 263)[1]).toBeCloseTo(0.3662, 4);
  expect(wilsonInterval(0, 20)[0]).toBe(0);
  expect(wilsonInterval(20, 20)[1]).toBe(1);
  expect(wilsonInterval(0, 0)).toEqual([0, 1]);
  // Exact coverage at p = .3, n = 50: the chance of the counts whose interval holds p.
  let coverage = 0;
  let chance = 0.7 ** 50;
  for (let k = 0; k <= 50; k += 1) {
    const [lo, hi] = wilsonInterval(k, 50);
    if (lo <= 0.3 && 0.3 <= hi) coverage += chance;
    chance *= ((50 - k) / (k + 1)) * (0.3 / 0.7);
  }
  expect(coverage).toBeGreaterThan(0.93);
  expect(coverage).toBeLessThan(0.97);
});

test('rows without a group are left out and empty groups say so', () => {
  const [first, second] = calibrationByGroup([0.5, 0.5, 0.9], [1, 0, 1], [0, 0, -1], 2);
  expect(first).toMatchObject({ n: 2, expected: 0.5, observed: 0.5, z: 0 });
  expect(second!.n).toBe(0);
  expect(second!.expected).toBeNaN();
});

test('equal groups keep rows of one forecast together', () => {
  expect([...equalGroups([0.9, 0.1, 0.5, 0.3], 2)]).toEqual([1, 0, 1, 0]);
  expect([...equalGroups([0.2, 0.2, 0.2, 0.8], 2)]).toEqual([0, 0, 0, 1]);
});

test('the parts of a Brier score add up, and recalibration takes away what scikit-learn takes away', () => {
  const scored = scoreBrier(reference.forecast, reference.outcome, 10);
  expect(scored.reliability - scored.resolution + scored.uncertainty + scored.within).toBeCloseTo(reference.brier, 12);
  expect(Math.abs(scored.within)).toBeLessThan(0.005);
  expect(scored.miscalibration).toBeCloseTo(reference.brier - reference.brier_recalibrated, 10);
});
