import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { fitModel, type ModelData } from '../src/models/fit-model.ts';
import { fitMultinomial, predictCategories } from '../src/models/fit-multinomial.ts';
import { type FittedModel, predictLinear, predictMean } from '../src/models/fitted-model.ts';
import { linearIntervals } from '../src/models/intervals.ts';
import { smoothByFactor, type Term } from '../src/models/terms.ts';

/** R's fits, with the script that made them and the versions of R and its packages: checks/r/engine-fits.R. */
const reference = JSON.parse(read('engine-fits.json'));

function read(name: string): string {
  return readFileSync(new URL(`references/${name}`, import.meta.url), 'utf8');
}

interface ReferenceFit {
  smoothing: number | number[];
  edf: number;
  deviance: number;
  scale: number;
  linear: number[];
  se: number[];
}

const margin = (covariate: string, lo: number, hi: number, segments: number) => ({ covariate, lo, hi, segments });
const tight = { smoothingTolerance: 1e-5 };

function expectClose(value: number, expected: number, relative: number): void {
  expect(Math.abs(value - expected)).toBeLessThanOrEqual(relative * Math.abs(expected));
}

/**
 * Smoothing parameters are where the likelihood is flattest: they agree to fewer digits than what is fitted with them. A
 * `straight` one has no best value, as its term wants no bend at all: both sides go up until their tolerance stops them.
 */
function expectSameFit(
  model: FittedModel,
  data: ModelData,
  expected: ReferenceFit,
  { digits = 5, straight = [] as number[] } = {},
): void {
  [expected.smoothing].flat().forEach((lambda, j) => {
    if (straight.includes(j)) expect(Math.min(model.smoothing[j], lambda)).toBeGreaterThan(40);
    else expect(Math.abs(Math.log(model.smoothing[j] / lambda))).toBeLessThan(10 ** (2 - digits));
  });
  expect(model.edf).toBeCloseTo(expected.edf, digits - 1);
  expectClose(model.record.deviance, expected.deviance, 10 ** -digits);
  expectClose(model.scale, expected.scale, 10 ** -digits);
  const intervals = linearIntervals(model, data.covariates, data.count, 0.95);
  expected.linear.forEach((value, row) => {
    expect(intervals.fit[row]).toBeCloseTo(value, digits - 2);
    expectClose(intervals.se[row], expected.se[row], 10 ** (1 - digits));
  });
}

function readSynth(): ModelData {
  const cells = read('synth_tr.csv')
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(',').map(Number));
  const column = (k: number) => cells.map((row) => row[k]);
  return { count: cells.length, covariates: { xs: column(0), ys: column(1) }, response: column(2) };
}

describe('smoothing by restricted marginal likelihood, against mgcv', () => {
  it('fits a gaussian smooth (cars)', () => {
    const { speed, dist, fit } = reference.cars;
    const data = { count: speed.length, covariates: { speed }, response: dist };
    const terms: Term[] = [{ kind: 'smooth', margin: margin('speed', 0, 30, 8) }];
    expectSameFit(fitModel({ name: 'cars', family: 'gaussian', terms }, data, tight), data, fit);
  });

  it('fits a gaussian tensor (trees)', () => {
    const { girth, height, logVolume, fit } = reference.trees;
    const data = { count: girth.length, covariates: { girth, height }, response: logVolume };
    const terms: Term[] = [{ kind: 'tensor', margins: [margin('girth', 8, 21, 2), margin('height', 60, 90, 2)] }];
    expectSameFit(fitModel({ name: 'trees', family: 'gaussian', terms }, data, tight), data, fit, {
      digits: 4,
      straight: [0, 1],
    });
  });

  it('fits a cyclic smooth (nottem)', () => {
    const { month, degrees, fit } = reference.nottem;
    const data = { count: month.length, covariates: { month }, response: degrees };
    const terms: Term[] = [{ kind: 'smooth', margin: { ...margin('month', 0, 12, 8), cyclic: true } }];
    expectSameFit(fitModel({ name: 'nottem', family: 'gaussian', terms }, data, tight), data, fit);
  });

  it('fits a smooth by factor (CO2)', () => {
    const { type, dose, uptake, fit } = reference.CO2;
    const data = { count: type.length, covariates: { type, dose }, response: uptake };
    const terms: Term[] = [
      { kind: 'factor', covariate: 'type', levels: 2 },
      ...smoothByFactor(margin('dose', 4.4, 7, 5), 'type', 2),
    ];
    expectSameFit(fitModel({ name: 'CO2', family: 'gaussian', terms }, data, tight), data, fit);
  });

  it('fits a binomial tensor (synth.tr): the likelihood of the working model, as bam takes it', () => {
    const data = readSynth();
    const terms: Term[] = [{ kind: 'tensor', margins: [margin('xs', -1.3, 0.9, 3), margin('ys', -0.3, 1.1, 3)] }];
    const model = fitModel({ name: 'synth', family: 'binomial', terms }, data, tight);
    expectSameFit(model, data, reference.tensor.working, { digits: 3, straight: [1] });
    // gam's own choice also counts how the weights move with the smoothing; here that is worth .2 degrees of freedom.
    expect(Math.abs(model.edf - reference.tensor.outer.edf)).toBeLessThan(0.25);
  });

  it('fits two binomial smooths (synth.tr)', () => {
    const data = readSynth();
    const terms: Term[] = [
      { kind: 'smooth', margin: margin('xs', -1.3, 0.9, 8) },
      { kind: 'smooth', margin: margin('ys', -0.3, 1.1, 8) },
    ];
    const model = fitModel({ name: 'synth', family: 'binomial', terms }, data, tight);
    expectSameFit(model, data, reference.additive.working, { digits: 3, straight: [1] });
  });

  it('fits a poisson smooth (discoveries)', () => {
    const { year, found, fit } = reference.discoveries;
    const data = { count: year.length, covariates: { year }, response: found };
    const terms: Term[] = [{ kind: 'smooth', margin: margin('year', 1860, 1960, 12) }];
    expectSameFit(fitModel({ name: 'discoveries', family: 'poisson', terms }, data, tight), data, fit.working, {
      digits: 4,
    });
  });
});

describe('poisson regression against glm (warpbreaks)', () => {
  const { breaks, wool, tension, exposure, offset, weighted } = reference.warpbreaks;
  const data = { count: breaks.length, covariates: { wool, tension }, response: breaks };
  const terms: Term[] = [
    { kind: 'factor', covariate: 'wool', levels: 2 },
    { kind: 'factor', covariate: 'tension', levels: 3 },
  ];

  it('with an offset', () => {
    const model = fitModel({ name: 'offset', family: 'poisson', terms }, { ...data, offset: exposure });
    offset.coefficients.forEach((value: number, k: number) => {
      expect(model.coefficients[k]).toBeCloseTo(value, 9);
    });
    expect(model.record.deviance).toBeCloseTo(offset.deviance, 8);
  });

  it('with case weights', () => {
    const model = fitModel({ name: 'weighted', family: 'poisson', terms }, { ...data, weight: weighted.weights });
    weighted.coefficients.forEach((value: number, k: number) => {
      expect(model.coefficients[k]).toBeCloseTo(value, 9);
    });
    expect(model.record.deviance).toBeCloseTo(weighted.deviance, 8);
  });
});

describe('a multinomial logit', () => {
  const { breaks, wool, tension, multinomial } = reference.warpbreaks;
  const terms: Term[] = [
    { kind: 'linear', covariate: 'breaks', centre: 0 },
    { kind: 'linear', covariate: 'wool', centre: 0 },
  ];

  it('is that of nnet (warpbreaks)', () => {
    const model = fitMultinomial(
      { name: 'tension', terms, categories: 3 },
      { count: tension.length, covariates: { breaks, wool }, category: tension },
    );
    expect(model.record.deviance).toBeCloseTo(multinomial.deviance, 6);
    multinomial.coefficients.forEach((row: number[], category: number) => {
      // nnet stops when the deviance moves by less than its tolerance: its coefficients hold four digits.
      row.forEach((value, k) => {
        expectClose(model.coefficients[category][k], value, 1e-3);
      });
    });
  });

  it('of two categories is the logistic fit, smoothing and all (synth.tr)', () => {
    const data = readSynth();
    const smooth: Term[] = [{ kind: 'smooth', margin: margin('xs', -1.3, 0.9, 8) }];
    const { count, covariates, response } = data;
    const two = fitMultinomial(
      { name: 'two', terms: smooth, categories: 2 },
      { count, covariates, category: response },
      tight,
    );
    const one = fitModel({ name: 'one', family: 'binomial', terms: smooth }, data, tight);
    expect(two.edf).toBeCloseTo(one.edf, 4);
    const chances = predictCategories(two, covariates, count);
    predictMean(one, covariates, count).forEach((p, row) => {
      expect(chances[1][row]).toBeCloseTo(p, 5);
      expect(chances[0][row] + chances[1][row]).toBeCloseTo(1, 14);
    });
  });
});

describe('a random intercept against lme4', () => {
  const fit = (name: string) => {
    const rows = read(`${name}.csv`).trim().split('\n').slice(1);
    const batch = rows.map((line) => line.charCodeAt(1) - 65);
    const response = rows.map((line) => Number(line.split(',')[1]));
    const terms: Term[] = [{ kind: 'random', covariate: 'batch', levels: 6 }];
    return fitModel(
      { name, family: 'gaussian', terms },
      { count: rows.length, covariates: { batch }, response },
      tight,
    );
  };

  it('finds the variances and the effects of Dyestuff', () => {
    const model = fit('dyestuff');
    const expected = reference.dyestuff;
    expect(model.coefficients[0]).toBeCloseTo(expected.intercept, 8);
    expectClose(model.scale, expected.residual, 1e-6);
    expectClose(model.scale / model.smoothing[0], expected.between, 1e-5);
    expected.effects.forEach((effect: number, k: number) => {
      expectClose(model.coefficients[1 + k], effect, 1e-6);
    });
    expect(expected.between).toBeCloseTo(1764.05, 3);
  });

  it('finds no variance between the batches of Dyestuff2', () => {
    const model = fit('dyestuff2');
    expect(reference.dyestuff2.between).toBe(0);
    expect(model.scale / model.smoothing[0]).toBeLessThan(1e-3 * model.scale);
    expectClose(model.scale, reference.dyestuff2.residual, 1e-3);
  });
});

describe('NIST StRD, certified values inside each file', () => {
  /** Digits that agree, as NIST counts them. */
  const digits = (value: number, certified: number) => -Math.log10(Math.abs(value - certified) / Math.abs(certified));
  const certified = (text: string, pattern: RegExp) => Number(pattern.exec(text)?.[1]);

  it('Norris: a line', () => {
    const text = read('Norris.dat');
    const rows = text.slice(text.lastIndexOf('Data:')).trim().split('\n').slice(1);
    const cells = rows.map((line) => line.trim().split(/\s+/).map(Number));
    const x = cells.map((row) => row[1]);
    const model = fitModel(
      { name: 'Norris', family: 'gaussian', terms: [{ kind: 'linear', covariate: 'x', centre: 0 }] },
      { count: cells.length, covariates: { x }, response: cells.map((row) => row[0]) },
    );
    expect(cells).toHaveLength(36);
    expect(digits(model.coefficients[0], certified(text, /^\s+B0\s+(-?[\d.]+)/m))).toBeGreaterThan(10);
    expect(digits(model.coefficients[1], certified(text, /^\s+B1\s+([\d.]+)/m))).toBeGreaterThan(12);
    expect(digits(Math.sqrt(model.scale), certified(text, /Standard Deviation\s+(0\.88\S+)/))).toBeGreaterThan(10);
    const se = Math.sqrt((model.covariance as Float64Array)[3]);
    expect(digits(se, certified(text, /^\s+B1\s+\S+\s+(\S+)/m))).toBeGreaterThan(10);
  });

  it.each([
    ['SiRstv', 5, 10],
    ['AtmWtAg', 2, 7],
    ['SmLs01', 9, 12],
    ['SmLs04', 9, 7],
  ])('%s: groups', (name, levels, wanted) => {
    const text = read(`${name}.dat`);
    const rows = text.slice(text.lastIndexOf('Data:')).trim().split('\n').slice(1);
    const cells = rows.map((line) => line.trim().split(/\s+/).map(Number));
    const group = cells.map((row) => row[0] - 1);
    const model = fitModel(
      { name, family: 'gaussian', terms: [{ kind: 'factor', covariate: 'group', levels }] },
      { count: cells.length, covariates: { group }, response: cells.map((row) => row[1]) },
    );
    expect(digits(model.scale, certified(text, /Within \S+\s+\d+\s+\S+\s+(\S+)/))).toBeGreaterThan(wanted);
    expect(digits(model.record.deviance, certified(text, /Within \S+\s+\d+\s+(\S+)/))).toBeGreaterThan(wanted);
  });
});

describe('predictions at the fitted rows', () => {
  it('are the same one row at a time', () => {
    const { speed, dist } = reference.cars;
    const data = { count: speed.length, covariates: { speed }, response: dist };
    const model = fitModel(
      { name: 'cars', family: 'gaussian', terms: [{ kind: 'smooth', margin: margin('speed', 0, 30, 8) }] },
      data,
    );
    const all = predictLinear(model, data.covariates, data.count);
    speed.forEach((value: number, row: number) => {
      expect(predictLinear(model, { speed: [value] }, 1)[0]).toBe(all[row]);
    });
  });
});
