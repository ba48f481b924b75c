import { expit } from '../numeric/logistic.ts';

/** Response distributions with their canonical links: logit, identity, logarithm. */
export type FamilyName = 'binomial' | 'gaussian' | 'poisson';

export interface Family {
  readonly name: FamilyName;
  /** Whether the scale is estimated from the residuals (gaussian) or known to be one. */
  readonly scaleKnown: boolean;
  mean(linear: number): number;
  /** Variance of one trial at this mean, scale aside; equals d mean / d linear, the links being canonical. */
  variance(mean: number): number;
  /** Twice the log likelihood lost, of one trial with response y. */
  deviance(y: number, mean: number): number;
  /**
   * The mean of every linear predictor, into `mean`, and the summed deviance of responses with weights; `certain` is what
   * `certainty` gives for them. One loop a family, so that it compiles to plain arithmetic.
   */
  meansInto(
    linear: Float64Array,
    response: Float64Array,
    weight: Float64Array,
    certain: number,
    mean: Float64Array,
  ): number;
  /** The part of the summed deviance that responses have by themselves. */
  certainty(response: Float64Array, weight: Float64Array): number;
  /** Linear predictor of the mean response, where a fit starts. */
  startAt(meanResponse: number): number;
  /** Whether y can be a mean response. */
  allows(y: number): boolean;
}

/** Means are kept this far from 0 and 1 in logarithms, so that a certain miss costs much and not infinity. */
const EDGE = 1e-15;
/** exp of more than this is of no use to anybody; a step that goes there is halved. */
const LARGEST_LOG_MEAN = 300;

function lostLog(share: number, mean: number): number {
  return share > 0 ? share * Math.log(share / Math.max(mean, EDGE)) : 0;
}

const BINOMIAL: Family = {
  name: 'binomial',
  scaleKnown: true,
  mean: expit,
  variance: (mean) => mean * (1 - mean),
  deviance: (y, mean) => 2 * (lostLog(y, mean) + lostLog(1 - y, 1 - mean)),
  meansInto(linear, response, weight, certain, mean) {
    let lost = 0;
    for (let row = 0; row < linear.length; row += 1) {
      const x = linear[row];
      const small = Math.exp(x > 0 ? -x : x);
      const rest = 1 / (1 + small);
      mean[row] = x > 0 ? rest : small * rest;
      // log(1 + exp x), less y x.
      lost += weight[row] * ((x > 0 ? x : 0) + Math.log(1 + small) - response[row] * x);
    }
    return 2 * (lost + certain);
  },
  certainty(response, weight) {
    let sum = 0;
    for (let row = 0; row < response.length; row += 1) {
      const y = response[row];
      if (y > 0 && y < 1) sum += weight[row] * (y * Math.log(y) + (1 - y) * Math.log(1 - y));
    }
    return sum;
  },
  startAt: (y) => {
    const kept = Math.min(Math.max(y, 1e-4), 1 - 1e-4);
    return Math.log(kept / (1 - kept));
  },
  allows: (y) => y >= 0 && y <= 1,
};

const GAUSSIAN: Family = {
  name: 'gaussian',
  scaleKnown: false,
  mean: (linear) => linear,
  variance: () => 1,
  deviance: (y, mean) => (y - mean) ** 2,
  meansInto(linear, response, weight, _, mean) {
    let squares = 0;
    for (let row = 0; row < linear.length; row += 1) {
      mean[row] = linear[row];
      squares += weight[row] * (response[row] - linear[row]) ** 2;
    }
    return squares;
  },
  certainty: () => 0,
  startAt: (y) => y,
  allows: Number.isFinite,
};

const POISSON: Family = {
  name: 'poisson',
  scaleKnown: true,
  mean: (linear) => Math.exp(Math.min(linear, LARGEST_LOG_MEAN)),
  variance: (mean) => mean,
  deviance: (y, mean) => 2 * ((y > 0 ? y * Math.log(y / Math.max(mean, EDGE)) : 0) - (y - mean)),
  meansInto(linear, response, weight, certain, mean) {
    let lost = 0;
    for (let row = 0; row < linear.length; row += 1) {
      const x = Math.min(linear[row], LARGEST_LOG_MEAN);
      mean[row] = Math.exp(x);
      lost += weight[row] * (mean[row] - response[row] * x);
    }
    return 2 * (lost + certain);
  },
  certainty(response, weight) {
    let sum = 0;
    for (let row = 0; row < response.length; row += 1) {
      const y = response[row];
      if (y > 0) sum += weight[row] * (y * Math.log(y) - y);
    }
    return sum;
  },
  startAt: (y) => Math.log(Math.max(y, 1e-4)),
  allows: (y) => y >= 0 && Number.isFinite(y),
};

const FAMILIES: Readonly<Record<FamilyName, Family>> = { binomial: BINOMIAL, gaussian: GAUSSIAN, poisson: POISSON };

/** Throws RangeError for another name. */
export function familyOf(name: FamilyName): Family {
  const family = FAMILIES[name];
  if (family === undefined)
    throw new RangeError(`a family is one of ${Object.keys(FAMILIES).join(', ')}, received ${name}`);
  return family;
}
