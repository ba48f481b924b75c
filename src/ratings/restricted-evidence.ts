import { type Cell, ManPosterior } from './man-posterior.ts';

const posterior = new ManPosterior();

/**
 * Restricted log marginal likelihood of spreads (method.md 10; Patterson & Thompson, Biometrika 58, 1971): the mean of all men is integrated
 * out. The league's zero is found from the very men who are compared, so that they are nearer to it than to the one that they were drawn
 * about, and without this their spread comes out too small (docs/decisions/046-spreads-about-an-unknown-mean.md). `men` are the cells of one man
 * each; `priorOf` gives the covariance of the shifts of as many cells.
 */
export function restrictedEvidence(
  men: readonly (readonly Cell[])[],
  priorOf: (cells: number) => Float64Array,
): number {
  const priors: Float64Array[] = [];
  let [sum, score, information] = [0, 0, 0];
  for (const cells of men) {
    const n = cells.length;
    priors[n] ??= priorOf(n);
    posterior.fit(cells, priors[n]);
    sum += posterior.logEvidence;
    score += posterior.score;
    information += posterior.information;
  }
  return information > 0 ? sum + 0.5 * (score ** 2 / information - Math.log(information)) : sum;
}
