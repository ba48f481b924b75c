import { predictMean } from '../../models/fitted-model.ts';
import type { ChanceRows } from '../chance-rows.ts';
import { INFIELD_SIZE } from '../grounders.ts';
import type { PositionChances } from '../reach-model.ts';

/** Chances of the six positions on their rows, and the raw set mark that follows from them. */
export interface PlayedOut {
  /** One column a position, along its rows. */
  readonly reach: readonly Float64Array[];
  readonly promise: readonly Float64Array[];
  /** V_1 of each grounder, before balancing; NaN for one without a row. */
  readonly set: Float64Array;
}

/**
 * Set marks (method.md 4) by plain prediction, whatever terms the models are made of. The build's own way is faster and knows
 * its terms; a test holds the two together.
 */
export function playOut(
  rows: readonly ChanceRows[],
  models: readonly PositionChances[],
  grounderCount: number,
): PlayedOut {
  const reach = rows.map(({ covariates, count }, k) => predictMean(models[k].reach, covariates, count));
  const promise = rows.map(({ covariates, count }, k) => predictMean(models[k].promise, covariates, count));
  // Chance of a gather times promise, by grounder and place in the chance order; a man without a row adds nothing.
  const h = new Float64Array(grounderCount * INFIELD_SIZE);
  const c = new Float64Array(grounderCount * INFIELD_SIZE);
  const set = new Float64Array(grounderCount).fill(Number.NaN);
  rows.forEach(({ at, place, count }, k) => {
    for (let i = 0; i < count; i += 1) {
      h[at[i] * INFIELD_SIZE + place[i]] = reach[k][i];
      c[at[i] * INFIELD_SIZE + place[i]] = promise[k][i];
      set[at[i]] = 0;
    }
  });
  for (let at = 0; at < grounderCount; at += 1) {
    if (Number.isNaN(set[at])) continue;
    for (let p = (at + 1) * INFIELD_SIZE - 1; p >= at * INFIELD_SIZE; p -= 1)
      set[at] = h[p] * c[p] + (1 - h[p]) * set[at];
  }
  return { reach, promise, set };
}
