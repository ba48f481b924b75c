import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { normalCell } from '../src/ratings/man-posterior.ts';
import { findSpread } from '../src/ratings/man-spread.ts';
import { restrictedEvidence } from '../src/ratings/restricted-evidence.ts';
import { shrinkNormal } from '../src/ratings/shrink-normal.ts';

const read = (name: string) => readFileSync(new URL(`references/${name}`, import.meta.url), 'utf8');

describe('Efron & Morris, JASA 70 (1975) 311-319: batting averages after 45 times at bat', () => {
  const men = read('efronmorris.csv').trim().split('\n').slice(1);
  const rows = men.map((line) => line.split(',').map(Number));
  const first = rows.map(([hits]) => Math.round((1000 * hits!) / 45) / 1000);
  const rest = rows.map(([, , average]) => average!);
  const mean = first.reduce((sum, y) => sum + y, 0) / first.length;
  // The paper's common binomial error at the mean.
  const error = Math.sqrt((mean * (1 - mean)) / 45);
  const shrunk = shrinkNormal(first, Array(first.length).fill(error));

  it('draws them to the mean by the James-Stein factor, as recomputed from three-decimal averages', () => {
    expect(mean).toBeCloseTo(0.265389, 6);
    const factor = (shrunk.estimates[0]!.mean - mean) / (first[0]! - mean);
    expect(factor).toBeCloseTo(0.212391, 5);
    const expected = [0.294, 0.2893, 0.2846, 0.2797, 0.2751, 0.2751, 0.2704, 0.2657, 0.2608, 0.2608];
    expected.push(...Array(5).fill(0.2562), 0.2515, 0.2468, 0.2422);
    shrunk.estimates.forEach(({ mean: estimate }, k) => {
      expect(estimate).toBeCloseTo(expected[k]!, 4);
    });
  });

  it("predicts the rest of the season with the paper's gain: total squared error .077 to .022, a ratio of 3.5", () => {
    const total = (values: readonly number[]) => values.reduce((sum, value, k) => sum + (value - rest[k]!) ** 2, 0);
    const [raw, drawn] = [total(first), total(shrunk.estimates.map((estimate) => estimate.mean))];
    expect(raw).toBeCloseTo(0.075374, 5);
    expect(drawn).toBeCloseTo(0.02131, 5);
    expect(raw / drawn).toBeCloseTo(3.537, 2);
  });

  it("does so on the paper's own scale, sqrt(45) arcsin(2y - 1), on which every man's error is 1", () => {
    const scale = (y: number) => Math.sqrt(45) * Math.asin(2 * y - 1);
    const [scaled, later] = [first.map(scale), rest.map(scale)];
    const { estimates } = shrinkNormal(scaled, Array(first.length).fill(1));
    const total = (values: readonly number[]) => values.reduce((sum, value, k) => sum + (value - later[k]!) ** 2, 0);
    // Worked out again from three-decimal averages, as above.
    expect(total(scaled)).toBeCloseTo(17.578, 3);
    expect(total(estimates.map((estimate) => estimate.mean))).toBeCloseTo(5.0, 3);
    // Its V, from the factor 1 - 15 / V.
    const middle = scaled.reduce((sum, value) => sum + value, 0) / scaled.length;
    const factor = (estimates[0]!.mean - middle) / (scaled[0]! - middle);
    expect(15 / (1 - factor)).toBeCloseTo(18.968, 3);
  });

  it('holds 80 % of what they did later in intervals that were meant to, give or take chance', () => {
    // 18 men: between 11 and 18 inside has probability .99 at .8 each; the later averages have their own small error.
    const inside = shrunk.estimates.filter(({ mean: at, sd }, k) => Math.abs(rest[k]! - at) <= 1.2816 * sd).length;
    expect(inside).toBeGreaterThanOrEqual(11);
  });
});

describe('the spread between batches, from their means', () => {
  const batchMeans = (name: string) => {
    const batches = new Map<string, number[]>();
    for (const line of read(name).trim().split('\n').slice(1)) {
      const [batch, value] = line.split(',');
      batches.set(batch!, [...(batches.get(batch!) ?? []), Number(value)]);
    }
    return [...batches.values()].map((values) => values.reduce((sum, value) => sum + value, 0) / values.length);
  };

  it.each([
    // R lme4, restricted maximum likelihood: between 1764.05001, residual 2451.25; five values a batch.
    ['dyestuff.csv', 2451.25, 1764.05001],
    // Boundary: between 0, residual 13.80631.
    ['dyestuff2.csv', 13.80631, 0],
  ])('%s: that of lme4, given its residual variance', (name, residual, between) => {
    const means = batchMeans(name);
    const { spread } = shrinkNormal(means, Array(means.length).fill(Math.sqrt(residual / 5)));
    expect(Math.abs(spread ** 2 - between)).toBeLessThan(1e-3);
    // The search for men's spreads on the logit scale, asked about the same batches in hundreds.
    const overall = means.reduce((sum, value) => sum + value, 0) / means.length;
    const cells = means.map((value) => [normalCell(5, (5 * (value - overall)) / 100, residual / 100 ** 2)]);
    const found = findSpread((tried) => restrictedEvidence(cells, () => Float64Array.of(tried * tried)));
    expect(Math.abs(100 * found.likeliest - Math.sqrt(between))).toBeLessThan(1e-3);
  });
});

it("Albert's normal empirical Bayes (J. Sports Analytics 1, 2015): mean .461, spread .045, .500 with an error of .027 is drawn by 26 %", () => {
  // Many clubs make the spread known: so many at mean and spread apart that the estimate is the published one.
  const errors = Array(2002).fill(0.027) as number[];
  const apart = Math.sqrt(0.045 ** 2 + 0.027 ** 2);
  const values = errors.map((_, k) => 0.461 + (k % 2 === 0 ? apart : -apart));
  values[0] = 0.5;
  const { mean, spread, estimates } = shrinkNormal(values, errors);
  expect(mean).toBeCloseTo(0.461, 3);
  expect(spread).toBeCloseTo(0.045, 3);
  expect(estimates[0]!.mean).toBeCloseTo(0.4897, 3);
  expect((0.5 - estimates[0]!.mean) / (0.5 - mean)).toBeCloseTo(0.26, 2);
});
