import { type Constraints, expandVector, reduceEquations } from './constraints.ts';
import type { Design } from './design.ts';
import type { Likelihood } from './estimate.ts';
import { linearOfRowsInto } from './linear-predictor.ts';
import { type NormalEquations, RowSums } from './row-sums.ts';
import type { DesignRows } from './term-rows.ts';

const SMALLEST_CHANCE = 1e-12;

/**
 * The likelihood of a multinomial logit: one linear predictor for each category but the first, all with the same terms;
 * reduced coefficients stand side by side, category by category.
 */
export class MultinomialLogit implements Likelihood {
  readonly weight: number;
  readonly scaleKnown = true;
  private readonly design: Design;
  private readonly constraints: Constraints;
  private readonly rows: DesignRows;
  private readonly category: Int32Array;
  private readonly caseWeight: Float64Array;
  private readonly sums: RowSums;
  /** Chance of each category but the first, category by category. */
  private readonly chances: readonly Float64Array[];
  private reduced: Float64Array;

  constructor(
    design: Design,
    constraints: Constraints,
    rows: DesignRows,
    category: Int32Array,
    categories: number,
    caseWeight: Float64Array,
  ) {
    this.design = design;
    this.constraints = constraints;
    this.rows = rows;
    this.category = category;
    this.caseWeight = caseWeight;
    this.weight = caseWeight.reduce((sum, w) => sum + w, 0);
    this.sums = new RowSums(design, rows);
    this.chances = Array.from({ length: categories - 1 }, () => new Float64Array(rows.count));
    this.reduced = new Float64Array(constraints.reducedWidth * (categories - 1));
  }

  moveTo(reduced: Float64Array): number {
    const { design, constraints, rows, chances, category, caseWeight } = this;
    this.reduced = reduced;
    const own = constraints.reducedWidth;
    chances.forEach((out, k) => {
      const part = reduced.subarray(k * own, (k + 1) * own);
      linearOfRowsInto(design, rows, expandVector(design, constraints, part), out);
    });
    let deviance = 0;
    for (let row = 0; row < rows.count; row += 1) {
      const logOfOwn = shareInPlace(chances, row, category[row]);
      deviance -= 2 * caseWeight[row] * logOfOwn;
    }
    return deviance;
  }

  normalEquations(): NormalEquations {
    const { design, constraints, chances, caseWeight, category, rows } = this;
    const own = constraints.reducedWidth;
    const n = own * chances.length;
    const information = new Float64Array(n * n);
    const right = new Float64Array(n);
    const w = new Float64Array(rows.count);
    const wz = new Float64Array(rows.count);
    for (let k = 0; k < chances.length; k += 1) {
      for (let l = 0; l <= k; l += 1) {
        for (let row = 0; row < rows.count; row += 1) {
          const p = chances[k][row];
          const curve = k === l ? Math.max(p * (1 - p), SMALLEST_CHANCE) : -p * chances[l][row];
          w[row] = caseWeight[row] * curve;
          wz[row] = k === l ? caseWeight[row] * ((category[row] === k + 1 ? 1 : 0) - p) : 0;
        }
        const block = reduceEquations(design, constraints, this.sums.normalEquations(w, wz));
        for (let i = 0; i < own; i += 1) {
          if (k === l) right[k * own + i] += block.right[i];
          for (let j = 0; j < own; j += 1) {
            information[(k * own + i) * n + l * own + j] = block.information[i * own + j];
            information[(l * own + j) * n + k * own + i] = block.information[i * own + j];
          }
        }
      }
    }
    // The score so far; the working model's right-hand side is that at the present coefficients.
    for (let i = 0; i < n; i += 1) for (let j = 0; j < n; j += 1) right[i] += information[i * n + j] * this.reduced[j];
    return { information, right };
  }
}

/** Turns the linear predictors of a row into chances; returns the logarithm of the chance of category `own`. */
export function shareInPlace(linear: readonly Float64Array[], row: number, own: number): number {
  let largest = 0;
  for (const column of linear) largest = Math.max(largest, column[row]);
  let total = Math.exp(-largest);
  for (const column of linear) total += Math.exp(column[row] - largest);
  const logOfOwn = (own === 0 ? 0 : linear[own - 1][row]) - largest - Math.log(total);
  for (const column of linear) column[row] = Math.exp(column[row] - largest) / total;
  return logOfOwn;
}
