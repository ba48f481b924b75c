import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type FitSettings, fitModel } from '../../src/models/fit-model.ts';
import { predictLinear, predictMean } from '../../src/models/fitted-model.ts';
import type { Term } from '../../src/models/terms.ts';
import { createRandom } from '../../src/numeric/random.ts';

/** R's glm and mgcv on published data: checks/r/penalised-fits.R made this file and says with which versions. */
const reference = JSON.parse(
  readFileSync(new URL('../../checks/references/penalised-fits.json', import.meta.url), 'utf8'),
);

/** Ripley's synthetic two-class data (MASS synth.tr, 1994). */
function readSynth() {
  const lines = readFileSync(new URL('../../checks/references/synth_tr.csv', import.meta.url), 'utf8')
    .trim()
    .split('\n')
    .slice(1);
  const cells = lines.map((line) => line.split(',').map(Number));
  return { count: cells.length, xs: cells.map((c) => c[0]), ys: cells.map((c) => c[1]), yc: cells.map((c) => c[2]) };
}

const synth = readSynth();
const tensor: Term = {
  kind: 'tensor',
  margins: [
    {
      covariate: 'xs',
      lo: reference.synth.range_x[0],
      hi: reference.synth.range_x[1],
      segments: reference.synth.segments,
    },
    {
      covariate: 'ys',
      lo: reference.synth.range_y[0],
      hi: reference.synth.range_y[1],
      segments: reference.synth.segments,
    },
  ],
};

function fitSynth(terms: Term[], settings?: FitSettings) {
  const data = { count: synth.count, covariates: { xs: synth.xs, ys: synth.ys }, response: synth.yc };
  return fitModel({ name: 'synth', family: 'binomial', terms }, data, settings);
}

describe('fitModel against R', () => {
  it('gives the O-ring fit (Dalal, Fowlkes & Hoadley, JASA 1989) of glm', () => {
    const { temperature, failures, coefficients, deviance, at31 } = reference.oring;
    const model = fitModel(
      { name: 'rings', family: 'binomial', terms: [{ kind: 'linear', covariate: 'temperature', centre: 0 }] },
      {
        count: temperature.length,
        covariates: { temperature },
        response: failures.map((f: number) => f / 6),
        weight: temperature.map(() => 6),
      },
    );
    expect(model.coefficients[0]).toBeCloseTo(coefficients[0], 7);
    expect(model.coefficients[1]).toBeCloseTo(coefficients[1], 9);
    // glm's deviance of counts is measured from the saturated model of the 23 flights, as ours is.
    expect(model.record.deviance).toBeCloseTo(deviance, 8);
    expect(predictMean(model, { temperature: [31] }, 1)[0]).toBeCloseTo(at31, 8);
  });

  it('gives the linear fit of glm', () => {
    const model = fitSynth([
      { kind: 'linear', covariate: 'xs', centre: 0 },
      { kind: 'linear', covariate: 'ys', centre: 0 },
    ]);
    reference.synth.linear.coefficients.forEach((value: number, k: number) => {
      expect(model.coefficients[k]).toBeCloseTo(value, 7);
    });
    expect(model.record.deviance).toBeCloseTo(reference.synth.linear.deviance, 8);
  });

  it.each(['fixed_1', 'fixed_001', 'fixed_100'])('gives the tensor fit of mgcv at %s', (name) => {
    const expected = reference.synth[name];
    const model = fitSynth([tensor], { fixedSmoothing: expected.smoothing });
    const at = reference.synth.at;
    const linear = predictLinear(
      model,
      { xs: at.map((p: { xs: number }) => p.xs), ys: at.map((p: { ys: number }) => p.ys) },
      at.length,
    );
    expect(model.record.deviance).toBeCloseTo(expected.deviance, 6);
    expect(model.edf).toBeCloseTo(expected.edf, 6);
    expected.linear.forEach((value: number, k: number) => {
      expect(linear[k]).toBeCloseTo(value, 5);
    });
  });
});

describe('fitModel by what must be true', () => {
  it('stands at a zero of the penalised score, with smoothing chosen by marginal likelihood', () => {
    const { record, smoothing } = fitSynth([tensor], { smoothingTolerance: 1e-4 });
    expect(record.stopped).toBe('converged');
    expect(record.gradientNorm).toBeLessThan(1e-9);
    expect(record.smoothingGradient).toBeLessThan(1e-2);
    expect(record.endObjective).toBeLessThan(record.startObjective);
    // The marginal likelihood of this data wants almost no penalty along xs and a straight line along ys; so does mgcv's.
    expect(smoothing[0]).toBeLessThan(1e-2);
    expect(smoothing[1]).toBeGreaterThan(100);
    expect(reference.synth.reml.smoothing[0]).toBeLessThan(1e-2);
    expect(reference.synth.reml.smoothing[1]).toBeGreaterThan(100);
  });

  it('has effective degrees of freedom between the null space and the basis, falling as the penalty grows', () => {
    const edfs = [1e-7, 1e-3, 1, 1e3, 1e7].map(
      (lambda) => fitSynth([tensor], { fixedSmoothing: [lambda, lambda] }).edf,
    );
    for (let k = 1; k < edfs.length; k += 1) expect(edfs[k]).toBeLessThan(edfs[k - 1]);
    expect(edfs[0]).toBeLessThanOrEqual(36);
    expect(edfs.at(-1)).toBeCloseTo(4, 3);
  });

  it('reaches the bilinear fit as the penalty goes to infinity', () => {
    const smooth = fitSynth([tensor], { fixedSmoothing: [1e8, 1e8] });
    const product = synth.xs.map((x, k) => x * synth.ys[k]);
    const bilinear = fitModel(
      {
        name: 'bilinear',
        family: 'binomial',
        terms: ['xs', 'ys', 'product'].map((covariate) => ({ kind: 'linear', covariate, centre: 0 }) as const),
      },
      { count: synth.count, covariates: { xs: synth.xs, ys: synth.ys, product }, response: synth.yc },
    );
    expect(smooth.record.deviance).toBeCloseTo(bilinear.record.deviance, 4);
  });

  it('counts a row of weight 3 as three rows, and leaves fitted means that sum to the responses', () => {
    const thrice = {
      count: synth.count * 3,
      covariates: { xs: tile(synth.xs), ys: tile(synth.ys) },
      response: tile(synth.yc),
    };
    const once = {
      count: synth.count,
      covariates: { xs: synth.xs, ys: synth.ys },
      response: synth.yc,
      weight: synth.xs.map(() => 3),
    };
    const spec = { name: 'weights', family: 'binomial', terms: [tensor] } as const;
    const settings = { fixedSmoothing: [0.3, 0.7] };
    const a = fitModel(spec, thrice, settings);
    const b = fitModel(spec, once, settings);
    a.coefficients.forEach((value, k) => {
      expect(b.coefficients[k]).toBeCloseTo(value, 6);
    });
    const fitted = predictMean(b, once.covariates, once.count).reduce((sum, p) => sum + p, 0);
    expect(fitted).toBeCloseTo(
      synth.yc.reduce((sum, y) => sum + y, 0),
      5,
    );
  });

  it('draws a random intercept toward zero the more, the fewer rows a level has', () => {
    const random = createRandom(5);
    const level: number[] = [];
    const response: number[] = [];
    for (let k = 0; k < 40; k += 1) {
      const shift = random.normal();
      for (let i = 0; i < (k === 0 ? 2 : 60); i += 1) {
        level.push(k);
        response.push(shift + random.normal() + (k === 0 ? 5 : 0));
      }
    }
    const model = fitModel(
      { name: 'levels', family: 'gaussian', terms: [{ kind: 'random', covariate: 'level', levels: 40 }] },
      { count: level.length, covariates: { level }, response },
    );
    const raw = (k: number) => {
      const own = response.filter((_, row) => level[row] === k);
      return own.reduce((sum, y) => sum + y, 0) / own.length - model.coefficients[0];
    };
    const kept = (k: number) => model.coefficients[1 + k] / raw(k);
    expect(kept(0)).toBeLessThan(kept(1));
    for (let k = 0; k < 40; k += 1) {
      expect(kept(k)).toBeGreaterThan(0);
      expect(kept(k)).toBeLessThan(1);
    }
  });

  it('throws with its record when it may not iterate long enough', () => {
    expect(() => fitSynth([tensor], { maxIterations: 1 })).toThrow(/synth did not converge: iteration limit after 1/);
  });
});

function tile(values: number[]): number[] {
  return [...values, ...values, ...values];
}
