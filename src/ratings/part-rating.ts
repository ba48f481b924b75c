import type { Cell, Estimate } from './man-posterior.ts';
import { NormalMixture } from './normal-mixture.ts';
import type { Facet, LeaguePart, Part } from './skill-window.ts';

/** What part of a position's chances a rating is about. */
export interface RatingPart {
  /** -1: both classes of balls together. */
  readonly ballClass: number;
  /** Index of DIRECTIONS, -1: all directions together. */
  readonly direction: number;
}

/** One man at one position, or at a part of it, by the evidence of a window. */
export interface ManRating extends RatingPart {
  readonly man: number;
  readonly position: number;
  /** His rows, average chances and successes that the rating rests on. */
  readonly rows: number;
  readonly chances: number;
  readonly done: number;
  /** Shift on the logit scale; of a rating over several cells their mean, weighted by what a shift is worth in each. */
  readonly shift: Estimate;
  /** Extra outs per 100 average chances of the part; exactly 0 at shift 0. */
  readonly rating: Estimate;
}

/** How many outs per 100 average chances there are for an out of the facet's own: 100 / its chances times its share of all. */
export type RatingScale = (part: LeaguePart, of: readonly LeaguePart[], position: number) => number;

/**
 * A cell of one man, with his evidence and the league's chances there: his shift at a facet, or in one direction of it; or his mean
 * surplus at a facet, which is the same in every direction.
 */
export interface RatedCell extends RatingPart {
  readonly facet: Facet;
  readonly isSurplus: boolean;
  readonly own: Part;
  readonly league: LeaguePart;
  readonly evidence: Cell;
  /** What is expected before the evidence. */
  readonly expected: number;
}

/** One part's rating while the draws of the spreads go by: a mixture of normals, kept as its two first moments. */
export class PartRating {
  private readonly cells: readonly RatedCell[];
  /** Numbers of the cells of shifts, each with its outs per 100 average chances for an out of its own, its worth at 0 and its weight. */
  private readonly shifts: readonly number[];
  private readonly part: RatingPart;
  private readonly position: number;
  private readonly scale: readonly number[];
  private readonly zero: readonly number[];
  private readonly weight: readonly number[];
  /** Numbers of the cells of surpluses, and how many successes of the average man each speaks of, scaled likewise. */
  private readonly surpluses: readonly number[];
  private readonly successes: readonly number[];
  private readonly slope: Float64Array;
  private readonly ratingMoments = new NormalMixture();
  private readonly shiftMoments = new NormalMixture();

  constructor(
    cells: readonly RatedCell[],
    members: readonly number[],
    { ballClass, direction }: RatingPart,
    position: number,
    scale: RatingScale,
  ) {
    this.cells = cells;
    this.shifts = members.filter((c) => !cells[c].isSurplus);
    this.surpluses = members.filter((c) => cells[c].isSurplus);
    this.part = { ballClass, direction };
    this.position = position;
    const league = this.shifts.map((c) => cells[c].league);
    this.scale = league.map((part) => scale(part, league, position));
    const atZero = league.map(({ worth }) => {
      worth.at(0);
      return { value: worth.value, slope: worth.slope };
    });
    this.zero = atZero.map(({ value }) => value);
    const slopes = atZero.map(({ slope }, m) => Math.max(slope * this.scale[m], 1e-12));
    const all = slopes.reduce((sum, slope) => sum + slope, 0);
    this.weight = slopes.map((slope) => slope / all);
    this.successes = this.surpluses.map((s) =>
      this.shifts.reduce(
        (sum, c, m) => sum + (cells[c].facet === cells[s].facet ? this.scale[m] * league[m].chances : 0),
        0,
      ),
    );
    this.slope = new Float64Array(cells.length);
  }

  take(posterior: Float64Array, covariance: Float64Array, n: number): void {
    let [rating, mean, variance] = [0, 0, 0];
    this.shifts.forEach((c, m) => {
      const { worth } = this.cells[c].league;
      worth.at(posterior[c]);
      rating += this.scale[m] * (worth.value - this.zero[m]);
      this.slope[c] = this.scale[m] * worth.slope;
      mean += this.weight[m] * posterior[c];
      this.shifts.forEach((d, o) => {
        variance += this.weight[m] * this.weight[o] * covariance[c * n + d];
      });
    });
    this.surpluses.forEach((c, m) => {
      rating += this.successes[m] * posterior[c];
      this.slope[c] = this.successes[m];
    });
    this.ratingMoments.add(rating, quadraticForm(this.slope, covariance));
    this.shiftMoments.add(mean, variance);
  }

  rating(man: number): ManRating {
    const total = { rows: 0, chances: 0, done: 0 };
    for (const c of this.shifts) {
      const { rows, chances, done } = this.cells[c].own;
      total.rows += rows;
      total.chances += chances;
      total.done += done;
    }
    return {
      man,
      position: this.position,
      ...this.part,
      ...total,
      shift: this.shiftMoments.estimate(),
      rating: this.ratingMoments.estimate(),
    };
  }
}

/** x'Ax; x is 0 outside the part's own cells. */
function quadraticForm(x: Float64Array, a: Float64Array): number {
  const n = x.length;
  let sum = 0;
  for (let c = 0; c < n; c += 1) {
    if (x[c] === 0) continue;
    for (let d = 0; d < n; d += 1) sum += x[c] * x[d] * a[c * n + d];
  }
  return sum;
}
