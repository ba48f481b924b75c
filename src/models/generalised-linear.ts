import { type Constraints, expandVector, reduceEquations } from './constraints.ts';
import type { Design } from './design.ts';
import type { Likelihood } from './estimate.ts';
import type { Family } from './family.ts';
import { linearOfRowsInto } from './linear-predictor.ts';
import { type NormalEquations, RowSums } from './row-sums.ts';
import type { DesignRows } from './term-rows.ts';

/** Data of a fit after binning and merging; one value a row. */
export interface FitRows {
  readonly rows: DesignRows;
  readonly response: Float64Array;
  readonly weight: Float64Array;
  /** Known part of the linear predictor; empty for none. */
  readonly offset: Float64Array;
  /** Deviance that merging took out of sight: that of the responses around their merged means. */
  readonly withinDeviance: number;
}

const SMALLEST_VARIANCE = 1e-12;

/** The likelihood of one linear predictor under an exponential family with its canonical link. */
export class GeneralisedLinear implements Likelihood {
  readonly weight: number;
  readonly scaleKnown: boolean;
  private readonly design: Design;
  private readonly constraints: Constraints;
  private readonly family: Family;
  private readonly data: FitRows;
  private readonly sums: RowSums;
  /** The part of the deviance that does not move. */
  private readonly certain: number;
  private readonly linear: Float64Array;
  private readonly mean: Float64Array;
  private readonly w: Float64Array;
  private readonly wz: Float64Array;

  constructor(design: Design, constraints: Constraints, family: Family, data: FitRows) {
    this.design = design;
    this.constraints = constraints;
    this.family = family;
    this.data = data;
    this.scaleKnown = family.scaleKnown;
    this.weight = data.weight.reduce((sum, w) => sum + w, 0);
    this.sums = new RowSums(design, data.rows);
    this.certain = family.certainty(data.response, data.weight);
    this.mean = new Float64Array(data.rows.count);
    this.linear = new Float64Array(data.rows.count);
    this.w = new Float64Array(data.rows.count);
    this.wz = new Float64Array(data.rows.count);
  }

  moveTo(reduced: Float64Array): number {
    const { linear, family } = this;
    const { rows, offset, response, weight, withinDeviance } = this.data;
    linearOfRowsInto(this.design, rows, expandVector(this.design, this.constraints, reduced), linear);
    for (let row = 0; row < offset.length; row += 1) linear[row] += offset[row];
    return withinDeviance + family.meansInto(linear, response, weight, this.certain, this.mean);
  }

  normalEquations(): NormalEquations {
    const { linear, mean, w, wz, family } = this;
    const { response, weight, offset } = this.data;
    for (let row = 0; row < linear.length; row += 1) {
      w[row] = weight[row] * Math.max(family.variance(mean[row]), SMALLEST_VARIANCE);
      const own = linear[row] - (offset.length > 0 ? offset[row] : 0);
      wz[row] = w[row] * own + weight[row] * (response[row] - mean[row]);
    }
    return reduceEquations(this.design, this.constraints, this.sums.normalEquations(w, wz));
  }

  /** Largest distance of a linear predictor from zero among rows that count, where the likelihood stands. */
  farthestLinear(): number {
    let farthest = 0;
    for (let row = 0; row < this.linear.length; row += 1)
      if (this.data.weight[row] > 0) farthest = Math.max(farthest, Math.abs(this.linear[row]));
    return farthest;
  }
}
