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
  startAt: (y) => y,
  allows: Number.isFinite,
};

const POISSON: Family = {
  name: 'poisson',
  scaleKnown: true,
  mean: (linear) => Math.exp(Math.min(linear, LARGEST_LOG_MEAN)),
  variance: (mean) => mean,
  deviance: (y, mean) => 2 * ((y > 0 ? y * Math.log(y / Math.max(mean, EDGE)) : 0) - (y - mean)),
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
