/** What one group (a man) contributes to the components of variance of a rate: x a unit of exposure c. */
export interface GroupSums {
  /** Sum of x and of c over the group's observations. */
  readonly total: number;
  readonly exposure: number;
  /** Sum of (x - rate c)^2 with the group's own rate, and what it would be expected to be at a noise of one. */
  readonly scatter: number;
  readonly freedom: number;
}

export interface VarianceComponents {
  /** Variance of the groups' own rates; 0 when they differ no more than noise makes them. */
  readonly signal: number;
  /** Variance of x for one unit of exposure within a group: a rate over an exposure of C has noise / C. */
  readonly noise: number;
  /** Exposure of a group as it counts here, C_0: that of each when they are equal. */
  readonly size: number;
  /** Between groups' mean square over the noise: 1 expected without a signal, 1 + C_0 signal / noise with it. */
  readonly varianceRatio: number;
}

/** Sums of a group's observations x with exposures c. */
export function groupSums(x: ArrayLike<number>, c: ArrayLike<number>): GroupSums {
  let [total, exposure, exposureSquares] = [0, 0, 0];
  for (let k = 0; k < x.length; k += 1) {
    total += x[k];
    exposure += c[k];
    exposureSquares += c[k] * c[k];
  }
  const rate = total / exposure;
  let scatter = 0;
  for (let k = 0; k < x.length; k += 1) scatter += (x[k] - rate * c[k]) ** 2;
  return { total, exposure, scatter, freedom: exposure - exposureSquares / exposure };
}

/**
 * Components of variance of a one-way layout by the method of moments (analysis of variance with unequal groups), with
 * Var(x) = noise c: noise = sum of scatter / sum of freedom; signal = (Q / (k - 1) - noise) / C_0, Q the sum of
 * C_i (rate_i - rate)^2 over the k groups, C_0 = (C - sum C_i^2 / C) / (k - 1). With equal groups of exposure one it is the
 * textbook's mean squares, and REML where that is inside its bounds.
 */
export function varianceComponents(groups: readonly GroupSums[]): VarianceComponents {
  let [total, exposure, squares, scatter, freedom] = [0, 0, 0, 0, 0];
  for (const group of groups) {
    total += group.total;
    exposure += group.exposure;
    squares += group.exposure ** 2;
    scatter += group.scatter;
    freedom += group.freedom;
  }
  const noise = scatter / freedom;
  const rate = total / exposure;
  const between = groups.reduce((sum, { exposure: c, total: x }) => sum + c * (x / c - rate) ** 2, 0);
  const others = groups.length - 1;
  const size = (exposure - squares / exposure) / others;
  return {
    noise,
    size,
    varianceRatio: between / others / noise,
    signal: Math.max(0, (between / others - noise) / size),
  };
}
