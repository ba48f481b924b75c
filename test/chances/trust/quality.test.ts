import { expect, test } from 'vitest';
import { pool } from '../../../src/chances/trust/answers.ts';
import { offGroups, qualityOf, reachResiduals } from '../../../src/chances/trust/quality.ts';
import { inventedAnswers } from '../../helpers/trust-report.ts';

test('a model that is right is ahead of the others and nothing of it is off', () => {
  const quality = qualityOf(inventedAnswers('reach', 6, 8000));
  expect(quality.better.constant.mean).toBeGreaterThan(10 * quality.better.constant.se);
  expect(quality.better.additive.mean).toBeGreaterThan(2 * quality.better.additive.se);
  expect(quality.logLoss.constant - quality.logLoss.model).toBeCloseTo(quality.better.constant.mean, 12);
  expect(offGroups(quality.deciles)).toEqual([]);
  expect(quality.parts.reliability).toBeLessThan(0.001);
  expect(quality.deciles.reduce((sum, { n }) => sum + n, 0)).toBe(8000);
  expect(quality.places.reduce((sum, { n }) => sum + n, 0)).toBe(8000);
});

test('a model that says too much is found out, by group and by place', () => {
  const quality = qualityOf(inventedAnswers('reach', 6, 8000, 0.8));
  expect(offGroups(quality.deciles).length).toBeGreaterThan(1);
  const worst = offGroups(quality.places)[0]!;
  expect(worst.observed).toBeLessThan(worst.expected);
  expect(quality.parts.miscalibration).toBeGreaterThan(0.003);
});

test('a defect in one corner of gap and arrival shows there and nowhere else', () => {
  const answers = inventedAnswers('reach', 6, 20_000);
  const inCorner = (i: number) =>
    answers.gapFt[i]! > 3 && answers.gapFt[i]! < 8 && answers.arrivalS[i]! < 1.2 && answers.arrivalS[i]! > 0.9;
  const model = answers.model.map((p, i) => (inCorner(i) ? 0.5 * p : p));
  const off = offGroups(reachResiduals({ ...answers, model }));
  expect(off).toMatchObject([{ gapFromFt: 3, gapToFt: 8, arrivalFromS: 0.9, arrivalToS: 1.2 }]);
});

test('chances by place have a distance, marks before anybody moves a speed', () => {
  expect(qualityOf(inventedAnswers('finish', 4, 500)).places[0]!.across).toBe('distanceFt');
  expect(qualityOf(inventedAnswers('set', 0, 500)).places[0]!.across).toBe('speedMph');
});

test('positions together are their rows together', () => {
  const parts = [inventedAnswers('reach', 4, 100), inventedAnswers('reach', 6, 50)];
  const all = pool(parts);
  expect(all).toMatchObject({ question: 'reach', position: 0, count: 150 });
  expect(all.model[120]).toBe(parts[1]!.model[20]);
  expect(() => pool([])).toThrow(RangeError);
});
