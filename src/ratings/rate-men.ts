import { type Estimate, ManPosterior } from './man-posterior.ts';
import { SPREAD_DRAWS } from './man-spread.ts';
import { facetCorrelation, facetsByMan } from './shared-skill.ts';
import { CURVE_POINTS, ShiftCurve } from './shift-curve.ts';
import type { SkillSpreads } from './skill-spreads.ts';
import {
  ballClassOf,
  type Facet,
  type LeaguePart,
  type ManFacet,
  type Part,
  positionOf,
  type SkillWindow,
} from './skill-window.ts';

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

const NOTHING: Part = { rows: 0, chances: 0, done: 0, curve: new ShiftCurve(new Float64Array(CURVE_POINTS)) };

/** A cell of one man: a facet, or one direction of it, with his evidence and the league's chances there. */
interface RatedCell extends RatingPart {
  readonly facet: Facet;
  readonly own: Part;
  readonly league: LeaguePart;
}

/** Ratings of everybody with evidence in the window at every position that he played (method.md 10), by man and position. */
export function rateMen(window: SkillWindow, spreads: SkillSpreads, scale: RatingScale): ManRating[] {
  const posterior = new ManPosterior();
  return [...facetsByMan(window).entries()]
    .sort(([a], [b]) => a - b)
    .flatMap(([man, own]) => rateMan(man, own, window, spreads, scale, posterior));
}

function rateMan(
  man: number,
  own: readonly ManFacet[],
  window: SkillWindow,
  spreads: SkillSpreads,
  scale: RatingScale,
  posterior: ManPosterior,
): ManRating[] {
  const positions = [...new Set(own.map(({ facet }) => positionOf(facet)))].sort((a, b) => a - b);
  const cells = positions.flatMap((position) => cellsOf(position, own, window, spreads));
  const parts = positions.flatMap((position) => partsOf(cells, position, scale));
  const n = cells.length;
  const covariance = new Float64Array(n * n);
  const prior = new Float64Array(n * n);
  for (let draw = 0; draw < SPREAD_DRAWS; draw += 1) {
    priorInto(prior, cells, spreads, draw);
    posterior.fit(
      cells.map((cell) => cell.own),
      prior,
    );
    posterior.covarianceInto(covariance);
    for (const part of parts) part.take(posterior.shift, covariance, n);
  }
  return parts.map((part) => part.rating(man));
}

function cellsOf(position: number, own: readonly ManFacet[], window: SkillWindow, spreads: SkillSpreads): RatedCell[] {
  const cells: RatedCell[] = [];
  for (const [facet, { league }] of window.facets) {
    if (positionOf(facet) !== position) continue;
    const his = own.find((each) => each.facet === facet);
    const ballClass = ballClassOf(facet);
    if (spreads.facets.get(facet)!.direction === null) {
      cells.push({ facet, ballClass, direction: -1, own: his?.all ?? NOTHING, league: league.all });
      continue;
    }
    for (const [direction, part] of league.byDirection) {
      cells.push({ facet, ballClass, direction, own: his?.byDirection.get(direction) ?? NOTHING, league: part });
    }
  }
  return cells;
}

/** Prior covariance of the cells, every spread at the same point of its posterior. */
function priorInto(prior: Float64Array, cells: readonly RatedCell[], spreads: SkillSpreads, draw: number): void {
  const n = cells.length;
  for (let c = 0; c < n; c += 1) {
    const a = spreads.facets.get(cells[c].facet)!;
    for (let d = 0; d < n; d += 1) {
      const b = spreads.facets.get(cells[d].facet)!;
      const alike = facetCorrelation(spreads.shared, cells[c].facet, cells[d].facet);
      prior[c * n + d] = alike * a.man.draws[draw] * b.man.draws[draw];
    }
    if (a.direction !== null) prior[c * n + c] += a.direction.draws[draw] ** 2;
  }
}

/** The position as a whole, then each class of balls, each followed by its directions where they are carried. */
function partsOf(cells: readonly RatedCell[], position: number, scale: RatingScale): PartRating[] {
  const here = cells.map((_, c) => c).filter((c) => positionOf(cells[c].facet) === position);
  const parts = [new PartRating(cells, here, { ballClass: -1, direction: -1 }, position, scale)];
  const classes = [...new Set(here.map((c) => cells[c].ballClass))];
  for (const ballClass of classes) {
    const ofClass = here.filter((c) => cells[c].ballClass === ballClass);
    parts.push(new PartRating(cells, ofClass, { ballClass, direction: -1 }, position, scale));
    if (ofClass.length === 1) continue;
    for (const c of ofClass) parts.push(new PartRating(cells, [c], cells[c], position, scale));
  }
  return parts;
}

/** One part's rating while the draws of the spreads go by: a mixture of normals, kept as its two first moments. */
class PartRating {
  private readonly cells: readonly RatedCell[];
  private readonly members: readonly number[];
  private readonly part: RatingPart;
  private readonly position: number;
  private readonly scale: readonly number[];
  private readonly zero: readonly number[];
  private readonly weight: readonly number[];
  private readonly slope: Float64Array;
  private readonly ratingMoments = new Moments();
  private readonly shiftMoments = new Moments();

  constructor(
    cells: readonly RatedCell[],
    members: readonly number[],
    { ballClass, direction }: RatingPart,
    position: number,
    scale: RatingScale,
  ) {
    this.cells = cells;
    this.members = members;
    this.part = { ballClass, direction };
    this.position = position;
    const league = members.map((c) => cells[c].league);
    this.scale = league.map((part) => scale(part, league, position));
    const atZero = league.map(({ worth }) => {
      worth.at(0);
      return { value: worth.value, slope: worth.slope };
    });
    this.zero = atZero.map(({ value }) => value);
    const slopes = atZero.map(({ slope }, m) => Math.max(slope * this.scale[m], 1e-12));
    const all = slopes.reduce((sum, slope) => sum + slope, 0);
    this.weight = slopes.map((slope) => slope / all);
    this.slope = new Float64Array(members.length);
  }

  take(shift: Float64Array, covariance: Float64Array, n: number): void {
    let [rating, ratingVariance, mean, variance] = [0, 0, 0, 0];
    this.members.forEach((c, m) => {
      const { worth } = this.cells[c].league;
      worth.at(shift[c]);
      rating += this.scale[m] * (worth.value - this.zero[m]);
      this.slope[m] = this.scale[m] * worth.slope;
      mean += this.weight[m] * shift[c];
    });
    this.members.forEach((c, m) => {
      this.members.forEach((d, o) => {
        ratingVariance += this.slope[m] * this.slope[o] * covariance[c * n + d];
        variance += this.weight[m] * this.weight[o] * covariance[c * n + d];
      });
    });
    this.ratingMoments.add(rating, ratingVariance);
    this.shiftMoments.add(mean, variance);
  }

  rating(man: number): ManRating {
    const total = { rows: 0, chances: 0, done: 0 };
    for (const c of this.members) {
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

class Moments {
  private count = 0;
  private sum = 0;
  private squares = 0;
  private variances = 0;

  add(mean: number, variance: number): void {
    this.count += 1;
    this.sum += mean;
    this.squares += mean * mean;
    this.variances += Math.max(variance, 0);
  }

  estimate(): Estimate {
    const mean = this.sum / this.count;
    const between = Math.max(this.squares / this.count - mean * mean, 0);
    return { mean, sd: Math.sqrt(this.variances / this.count + between) };
  }
}
