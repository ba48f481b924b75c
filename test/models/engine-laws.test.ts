import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ModelSpec } from '../../src/models/design.ts';
import { type FitSettings, fitModel, type ModelData } from '../../src/models/fit-model.ts';
import { type FittedModel, predictLinear, predictMean } from '../../src/models/fitted-model.ts';
import { linearIntervals, simultaneousIntervals } from '../../src/models/intervals.ts';
import { fromModelBytes, toModelBytes } from '../../src/models/model-bytes.ts';
import { fromModelFile, toModelFile } from '../../src/models/model-file.ts';
import { curveOf, evaluateCurve } from '../../src/models/surface.ts';
import { smoothByFactor, type Term } from '../../src/models/terms.ts';
import { normalProbability, normalQuantile } from '../../src/numeric/normal-quantile.ts';
import { createRandom, type Random } from '../../src/numeric/random.ts';

const margin = (covariate: string, segments = 6, lo = 0, hi = 1) => ({ covariate, lo, hi, segments });

/** Rows of four covariates, one of them a level and one cyclic, with binomial responses. */
function invent(random: Random, count: number): ModelData & { covariates: Record<string, Float64Array> } {
  const uniform = () => Float64Array.from({ length: count }, () => random.next());
  const covariates = {
    a: uniform(),
    b: uniform(),
    c: uniform(),
    level: Float64Array.from({ length: count }, () => random.integer(3)),
  };
  const response = Float64Array.from({ length: count }, (_, row) => {
    const { a, b, c, level } = covariates;
    const linear = 2 * Math.sin(6 * a[row]) * b[row] + Math.cos(2 * Math.PI * c[row]) + 0.5 * level[row] - 1;
    return random.next() < 1 / (1 + Math.exp(-linear)) ? 1 : 0;
  });
  return { count, covariates, response };
}

const MIXED: Term[] = [
  { kind: 'tensor', margins: [margin('a'), margin('b', 4)] },
  { kind: 'smooth', margin: { ...margin('c', 8), cyclic: true } },
  { kind: 'random', covariate: 'level', levels: 3 },
];

const fitMixed = (data: ModelData, settings?: FitSettings) =>
  fitModel({ name: 'mixed', family: 'binomial', terms: MIXED }, data, settings);

function largestDifference(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let largest = 0;
  for (let k = 0; k < a.length; k += 1) largest = Math.max(largest, Math.abs(a[k] - b[k]));
  return largest;
}

describe('binning', () => {
  it('changes nothing where every value sits on the grid, however rows are summed', () => {
    const random = createRandom(3);
    const data = invent(random, 3000);
    const rounded = Object.fromEntries(
      Object.entries(data.covariates).map(([name, values]) => [name, values.map((v) => Math.round(v * 60) / 60)]),
    );
    const coarse = { ...data, covariates: rounded };
    // 60 different values are kept whatever the bins: grouped sums and merged rows. A jitter of 1e-12 makes every value its own bin: plain sums.
    const jittered = Object.fromEntries(
      Object.entries(rounded).map(([name, values]) => [
        name,
        name === 'level' ? values : values.map((v) => v + 1e-12 * random.next()),
      ]),
    );
    const settings = { fixedSmoothing: [1, 1, 1, 1] };
    const grouped = fitMixed(coarse, { ...settings, binsPerSegment: 10 });
    const plain = fitMixed({ ...data, covariates: jittered }, { ...settings, binsPerSegment: 0 });
    expect(largestDifference(grouped.coefficients, plain.coefficients)).toBeLessThan(1e-7);
    expect(grouped.edf).toBeCloseTo(plain.edf, 7);
    expect(grouped.record.deviance).toBeCloseTo(plain.record.deviance, 6);
  });

  it('merges equal rows into cells, with the deviance of the rows', () => {
    const data = invent(createRandom(4), 4000);
    const level = data.covariates.level;
    const b = data.covariates.b.map((v) => Math.round(v * 20) / 20);
    const terms: Term[] = [
      { kind: 'smooth', margin: margin('b') },
      { kind: 'factor', covariate: 'level', levels: 3 },
    ];
    const model = fitModel({ name: 'cells', family: 'binomial', terms }, { ...data, covariates: { b, level } });
    expect(model.record.cells).toBe(63);
    const chances = predictMean(model, { b, level }, data.count);
    let deviance = 0;
    for (let row = 0; row < data.count; row += 1)
      deviance -= 2 * Math.log(data.response[row] === 1 ? chances[row] : 1 - chances[row]);
    expect(model.record.deviance).toBeCloseTo(deviance, 6);
  });

  it('stays within the bound that the record gives, and the bound shrinks with the bins', () => {
    const data = invent(createRandom(5), 6000);
    const bounds = [5, 20, 80].map((binsPerSegment) => {
      const model = fitMixed(data, { binsPerSegment, fixedSmoothing: [0.1, 0.1, 0.1, 0.1] });
      const binning = model.record.binning ?? [];
      expect(binning.map(({ covariate }) => covariate)).toEqual(['a', 'b', 'c']);
      const total = binning.reduce((sum, { largestError }) => sum + largestError, 0);
      for (const { covariate, farthestMove } of binning) {
        const moved = { ...data.covariates, [covariate]: data.covariates[covariate].map((v) => v + farthestMove) };
        const by = largestDifference(
          predictLinear(model, moved, data.count),
          predictLinear(model, data.covariates, data.count),
        );
        expect(by).toBeLessThanOrEqual(binning.find((entry) => entry.covariate === covariate)!.largestError + 1e-12);
      }
      return total;
    });
    expect(bounds[1]).toBeLessThan(bounds[0] / 2);
    expect(bounds[2]).toBeLessThan(bounds[1] / 2);
  });

  it('of a tensor of three margins gives what the exact rows give', () => {
    const data = invent(createRandom(6), 2500);
    const a = data.covariates.a.map((v) => Math.round(v * 30) / 30);
    const b = data.covariates.b.map((v) => Math.round(v * 10) / 10);
    const covariates = { ...data.covariates, a, b };
    const terms: Term[] = [{ kind: 'tensor', margins: [margin('a', 3), margin('b', 2), margin('c', 2)] }];
    const spec = { name: 'three', family: 'binomial', terms } as const;
    const jitter = (values: Float64Array) => values.map((v, row) => v + 1e-13 * (row + 1));
    const exact = { ...covariates, a: jitter(a), b: jitter(b) };
    const settings = { fixedSmoothing: [0.1, 0.1, 0.1], binsPerSegment: 0 };
    const grouped = fitModel(spec, { ...data, covariates }, settings);
    const plain = fitModel(spec, { ...data, covariates: exact }, settings);
    expect(largestDifference(grouped.coefficients, plain.coefficients)).toBeLessThan(1e-6);
  });
});

describe('a fit', () => {
  const data = invent(createRandom(7), 2500);
  const model = fitMixed(data);

  it('is the same when repeated, and when the rows stand in another order', () => {
    expect(fitMixed(data).coefficients).toEqual(model.coefficients);
    const turned = Object.fromEntries(Object.entries(data.covariates).map(([k, v]) => [k, v.slice().reverse()]));
    const reversed = fitMixed({ ...data, covariates: turned, response: Float64Array.from(data.response).reverse() });
    expect(largestDifference(reversed.coefficients, model.coefficients)).toBeLessThan(1e-6);
  });

  it('sums every centred term to zero over its rows', () => {
    const model = fitMixed(data, { binsPerSegment: 0 });
    const without = (name: string) =>
      predictLinear(model, { ...data.covariates, [name]: new Float64Array(data.count).fill(Number.NaN) }, data.count);
    const all = predictLinear(model, data.covariates, data.count);
    for (const name of ['a', 'c']) {
      const bare = without(name);
      expect(Math.abs(all.reduce((sum, value, row) => sum + value - bare[row], 0))).toBeLessThan(1e-6 * data.count);
    }
  });

  it('goes on from an earlier fit and arrives at the same place sooner', () => {
    const warm = fitMixed(data, { start: model });
    expect(warm.record.iterations).toBeLessThan(model.record.iterations);
    expect(largestDifference(warm.coefficients, model.coefficients)).toBeLessThan(1e-3);
    expect(warm.record.startObjective).toBeCloseTo(model.record.endObjective, 6);
  });

  it('leaves an earlier fit that the data cannot be near: all were outs so far, and now one is not', () => {
    const outs = (failures: number) => {
      const response = Float64Array.from({ length: 40 }, (_, row) => (row < failures ? 0 : 1));
      const level = Uint8Array.from({ length: 40 }, (_, row) => row % 4);
      return { count: 40, covariates: { level }, response };
    };
    const spec: ModelSpec = {
      name: 'outs',
      family: 'binomial',
      terms: [{ kind: 'random', covariate: 'level', levels: 4 }],
    };
    const settings = { ridge: 0.01 };
    const earlier = fitModel(spec, outs(0), settings);
    for (const failures of [1, 5]) {
      const [warm, afresh] = [{ ...settings, start: earlier }, settings].map((own) =>
        fitModel(spec, outs(failures), own),
      );
      expect(largestDifference(warm!.coefficients, afresh!.coefficients)).toBeLessThan(1e-9);
      const mean = predictMean(warm!, outs(failures).covariates, 40).reduce((sum, value) => sum + value, 0) / 40;
      expect(mean).toBeCloseTo(1 - failures / 40, 3);
    }
  });

  it('joins the ends of a cyclic smooth', () => {
    const curve = curveOf(model, 'c');
    const h = 1e-5;
    expect(evaluateCurve(curve, 1 - 1e-12)).toBeCloseTo(evaluateCurve(curve, 0), 9);
    const slopeAtEnd = (evaluateCurve(curve, 1 - 1e-12) - evaluateCurve(curve, 1 - h)) / h;
    const slopeAtStart = (evaluateCurve(curve, h) - evaluateCurve(curve, 0)) / h;
    expect(slopeAtEnd).toBeCloseTo(slopeAtStart, 2);
    expect(evaluateCurve(curve, 1.25)).toBeCloseTo(evaluateCurve(curve, 0.25), 12);
  });

  it('fits the same smooth by factor as separate fits when nothing else is shared', () => {
    const { b, level } = data.covariates;
    const terms: Term[] = [
      { kind: 'factor', covariate: 'level', levels: 3 },
      ...smoothByFactor(margin('b'), 'level', 3),
    ];
    const settings = { fixedSmoothing: [0.5, 2, 7], binsPerSegment: 0 };
    const together = fitModel(
      { name: 'by', family: 'binomial', terms },
      { ...data, covariates: { b, level } },
      settings,
    );
    const linear = predictLinear(together, { b, level }, data.count);
    [0, 1, 2].forEach((wanted, k) => {
      const rows = Array.from(level.keys()).filter((row) => level[row] === wanted);
      const own = Float64Array.from(rows, (row) => b[row]);
      const alone = fitModel(
        { name: 'alone', family: 'binomial', terms: [{ kind: 'smooth', margin: margin('b') }] },
        { count: rows.length, covariates: { b: own }, response: rows.map((row) => data.response[row]) },
        { fixedSmoothing: [settings.fixedSmoothing[k]] },
      );
      const separate = predictLinear(alone, { b: own }, rows.length);
      expect(
        largestDifference(
          separate,
          rows.map((row) => linear[row]),
        ),
      ).toBeLessThan(1e-7);
    });
  });

  it('holds a chance that the data separate to finite numbers, and says so', () => {
    const x = Float64Array.from({ length: 200 }, (_, k) => k / 200);
    const separated = fitModel(
      { name: 'separated', family: 'binomial', terms: [{ kind: 'smooth', margin: margin('x', 10) }] },
      { count: 200, covariates: { x }, response: x.map((v) => (v > 0.5 ? 1 : 0)) },
      { ridge: 1e-4 },
    );
    expect(separated.coefficients.every(Number.isFinite)).toBe(true);
    expect(separated.record.stopped).toBe('converged');
    expect(separated.record.notes.join()).toMatch(/certain/);
  });

  it('says how many coefficients have no row under them', () => {
    const half = data.covariates.a.map((v) => v / 3);
    const model = fitModel(
      { name: 'corner', family: 'binomial', terms: [{ kind: 'smooth', margin: margin('a', 9) }] },
      { ...data, covariates: { a: half } },
    );
    expect(model.record.notes.join()).toMatch(/s\(a\): 6 of 12 coefficients have no row under them/);
  });
});

describe('monotone smooths', () => {
  const random = createRandom(8);
  const count = 600;
  const x = Float64Array.from({ length: count }, () => random.next());
  const fit = (response: Float64Array, monotone: 'increasing' | 'decreasing' | undefined, settings?: FitSettings) =>
    fitModel(
      {
        name: 'monotone',
        family: 'gaussian',
        terms: [{ kind: 'smooth', margin: { ...margin('x', 12), ...(monotone && { monotone }) } }],
      },
      { count, covariates: { x }, response },
      settings,
    );
  const grid = Float64Array.from({ length: 400 }, (_, k) => k / 399);
  const curve = (model: FittedModel) => predictLinear(model, { x: grid }, 400);
  const bumpy = x.map((v) => Math.sin(9 * v) + 0.3 * random.normal());

  it.each(['increasing', 'decreasing'] as const)('never go the wrong way: %s', (way) => {
    const values = curve(fit(bumpy, way));
    for (let k = 1; k < values.length; k += 1)
      expect((way === 'increasing' ? 1 : -1) * (values[k] - values[k - 1])).toBeGreaterThanOrEqual(-1e-12);
  });

  it.each([0, 1e-6])('have smoothing at the top of its likelihood, with a ridge of %s', (ridge) => {
    const y = x.map(() => random.next());
    const { record } = fitModel(
      {
        name: 'monotone surface',
        family: 'gaussian',
        terms: [{ kind: 'tensor', margins: [{ ...margin('x', 8), monotone: 'increasing' }, margin('y', 5)] }],
      },
      { count, covariates: { x, y }, response: bumpy.map((v, k) => v * (1 + y[k])) },
      { ridge },
    );
    expect(record.smoothingGradient).toBeLessThan(1e-2);
    expect(record.notes.join()).not.toMatch(/held/);
  });

  it('are the free fit where that goes the right way already', () => {
    const rising = x.map((v) => 4 * v + 0.05 * random.normal());
    const settings = { fixedSmoothing: [0.5] };
    expect(
      largestDifference(curve(fit(rising, 'increasing', settings)), curve(fit(rising, undefined, settings))),
    ).toBeLessThan(1e-9);
  });

  it('reach their optimum on a steep surface, where many steps come to be held at once', () => {
    const draws = createRandom(12);
    const rows = 3000;
    const apart = Float64Array.from({ length: rows }, () => 30 * draws.next());
    const arrival = Float64Array.from({ length: rows }, () => 0.3 + 1.5 * draws.next());
    // The chance falls from nearly one to nearly none within a foot of a line.
    const gathered = apart.map((gap, k) => (draws.next() < 1 / (1 + Math.exp(3 * (gap - 2 - 5 * arrival[k]))) ? 1 : 0));
    const fitSurface = (more: { monotone?: 'decreasing' }) =>
      fitModel(
        {
          name: 'steep',
          family: 'binomial',
          terms: [
            {
              kind: 'tensor',
              margins: [
                { covariate: 'apart', lo: 0, hi: 30, segments: 12, ...more },
                { covariate: 'arrival', lo: 0.3, hi: 1.8, segments: 4 },
              ],
            },
          ],
        },
        { count: rows, covariates: { apart, arrival }, response: gathered },
        { ridge: 0.01, fixedSmoothing: [1e-4, 1e-4] },
      ).record;
    const [free, held] = [fitSurface({}), fitSurface({ monotone: 'decreasing' })];
    expect(held.endObjective).toBeGreaterThan(free.endObjective);
    expect(held.endObjective).toBeLessThan(1.2 * free.endObjective);
    expect(held.gradientNorm).toBeLessThan(1e-6);
    expect(held.iterations).toBeLessThan(30);
  });

  it('are flat, at the mean, where the data only go the wrong way', () => {
    const falling = x.map((v) => -4 * v);
    const mean = falling.reduce((sum, v) => sum + v, 0) / count;
    for (const value of curve(fit(falling, 'increasing', { fixedSmoothing: [1e-3] })))
      expect(value).toBeCloseTo(mean, 2);
  });
});

describe('intervals', () => {
  it('use the normal distribution (Abramowitz & Stegun, tables 26.1 and 26.5, from memory)', () => {
    expect(normalQuantile(0.975)).toBeCloseTo(1.959963984540054, 12);
    expect(normalQuantile(0.5)).toBeCloseTo(0, 14);
    expect(normalProbability(1)).toBeCloseTo(0.841344746068543, 13);
    fc.assert(
      fc.property(fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true }), (p) => {
        expect(normalProbability(normalQuantile(p))).toBeCloseTo(p, 12);
      }),
    );
  });

  it('cover the truth in 93 to 97 of 100 rows at 95 %, and all rows at once in most fits', () => {
    const truth = (v: number) => Math.sin(2 * Math.PI * v) + v;
    let inside = 0;
    let everywhere = 0;
    const fits = 120;
    const count = 300;
    for (let k = 0; k < fits; k += 1) {
      const random = createRandom(1000 + k);
      const x = Float64Array.from({ length: count }, (_, row) => (row + 0.5) / count);
      const response = x.map((v) => truth(v) + 0.5 * random.normal());
      const model = fitModel(
        { name: 'cover', family: 'gaussian', terms: [{ kind: 'smooth', margin: margin('x', 17) }] },
        { count, covariates: { x }, response },
      );
      const { lo, hi } = linearIntervals(model, { x }, count, 0.95);
      inside += x.reduce((sum, v, row) => sum + (lo[row] <= truth(v) && truth(v) <= hi[row] ? 1 : 0), 0);
      const grid = Float64Array.from({ length: 60 }, (_, row) => (row + 0.5) / 60);
      const all = simultaneousIntervals(model, { x: grid }, 60, 0.95, random, 400);
      expect(all.width).toBeGreaterThan(1.96);
      everywhere += grid.every((v, row) => all.lo[row] <= truth(v) && truth(v) <= all.hi[row]) ? 1 : 0;
    }
    expect(inside / (fits * count)).toBeGreaterThan(0.93);
    expect(inside / (fits * count)).toBeLessThan(0.97);
    // 95 % of 120 is 114, standard deviation 2.4; smoothing bias costs some.
    expect(everywhere).toBeGreaterThan(100);
  });
});

describe('model files', () => {
  const data = invent(createRandom(9), 1500);
  data.covariates.a[3] = Number.NaN;
  const model = fitMixed(data, { ridge: 0.01 });
  const linear = predictLinear(model, data.covariates, data.count);

  it('come back bit for bit, as JSON and as bytes', () => {
    const json = fromModelFile(JSON.parse(JSON.stringify(toModelFile(model))));
    const bytes = fromModelBytes(toModelBytes(model));
    for (const loaded of [json, bytes]) {
      expect(predictLinear(loaded, data.covariates, data.count)).toEqual(linear);
      expect(loaded.record).toEqual(model.record);
    }
    expect(bytes.covariance).toEqual(model.covariance);
    expect(() => linearIntervals(json, data.covariates, data.count, 0.95)).toThrow(/without its covariance/);
  });

  it('are rejected when any one coefficient or smoothing parameter was changed', () => {
    const file = toModelFile(model);
    for (let k = 0; k < file.coefficients.length; k += 1) {
      const coefficients = file.coefficients.map((value, i) => (i === k ? value + 0.01 : value));
      expect(() => fromModelFile({ ...file, coefficients }), `coefficient ${k}`).toThrow(/damaged/);
    }
    const smoothing = file.smoothing.map((value, j) => (j === 0 ? value * 1.5 : value));
    expect(() => fromModelFile({ ...file, smoothing })).toThrow(/damaged/);
  });

  it('are rejected when of another version or cut short', () => {
    expect(() => fromModelFile({ ...toModelFile(model), version: 1 as never })).toThrow(/version 2 expected/);
    const bytes = toModelBytes(model);
    expect(() => fromModelBytes(bytes.subarray(0, bytes.length - 8))).toThrow(/cut short/);
    expect(() => fromModelBytes(bytes.subarray(0, 20))).toThrow(/cut short/);
    expect(() => fromModelBytes(new Uint8Array(64))).toThrow(/not a model/);
  });
});

describe('bad input', () => {
  const spec = { name: 'bad', family: 'binomial', terms: [{ kind: 'smooth', margin: margin('x') }] } as const;
  const x = [0.1, 0.5, 0.9];
  it.each([
    ['a response outside 0..1', { count: 3, covariates: { x }, response: [0, 1, 2] }, /cannot be 2/],
    ['a missing response', { count: 3, covariates: { x }, response: [0, 1, Number.NaN] }, /cannot be NaN/],
    [
      'a negative weight',
      { count: 3, covariates: { x }, response: [0, 1, 1], weight: [1, -1, 1] },
      /received -1 in row 1/,
    ],
    ['a short column', { count: 3, covariates: { x: [1] }, response: [0, 1, 1] }, /needs covariate x with 3 values/],
    ['a short response', { count: 3, covariates: { x }, response: [0] }, /3 values of response, received 1/],
    [
      'no offset',
      { count: 3, covariates: { x }, response: [0, 1, 1], offset: [0, 0, Number.NaN] },
      /offsets .* received NaN/,
    ],
  ])('%s', (_, data, message) => {
    expect(() => fitModel(spec, data)).toThrow(message);
  });
});
