import { expectedShift } from './expected-shifts.ts';
import { about, ManPosterior, normalCell } from './man-posterior.ts';
import { SPREAD_DRAWS } from './man-spread.ts';
import { type ManRating, PartRating, type RatedCell, type RatingScale } from './part-rating.ts';
import { facetCorrelation, facetsByMan } from './shared-skill.ts';
import { CURVE_POINTS, ShiftCurve } from './shift-curve.ts';
import type { SkillSpreads } from './skill-spreads.ts';
import {
  ballClassOf,
  type LeaguePart,
  type ManFacet,
  type Part,
  positionOf,
  type SkillWindow,
} from './skill-window.ts';

const NOTHING: Part = {
  rows: 0,
  chances: 0,
  done: 0,
  surplus: 0,
  curve: new ShiftCurve(new Float64Array(CURVE_POINTS)),
};

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
  const cells = positions.flatMap((position) => cellsOf(man, position, own, window, spreads));
  const evidence = cells.map(({ evidence, expected }) => about(expected, evidence));
  const shift = new Float64Array(cells.length);
  const parts = positions.flatMap((position) => partsOf(cells, position, scale));
  const n = cells.length;
  const covariance = new Float64Array(n * n);
  const prior = new Float64Array(n * n);
  for (let draw = 0; draw < SPREAD_DRAWS; draw += 1) {
    priorInto(prior, man, cells, spreads, draw);
    posterior.fit(evidence, prior);
    posterior.covarianceInto(covariance);
    for (let c = 0; c < n; c += 1) shift[c] = cells[c].expected + posterior.shift[c];
    for (const part of parts) part.take(shift, covariance, n);
  }
  return parts.map((part) => part.rating(man));
}

function cellsOf(
  man: number,
  position: number,
  own: readonly ManFacet[],
  window: SkillWindow,
  spreads: SkillSpreads,
): RatedCell[] {
  const cells: RatedCell[] = [];
  for (const [facet, { league }] of window.facets) {
    if (positionOf(facet) !== position) continue;
    const his = own.find((each) => each.facet === facet);
    const ballClass = ballClassOf(facet);
    const expected = expectedShift(spreads.expected, facet, man);
    const add = (direction: number, own: Part, part: LeaguePart) =>
      cells.push({
        facet,
        ballClass,
        direction,
        isSurplus: false,
        own,
        league: part,
        evidence: own,
        expected: expected.mean,
      });
    const all = his?.all ?? NOTHING;
    const spread = spreads.facets.get(facet)!;
    if (spread.direction === null) add(-1, all, league.all);
    else {
      for (const [direction, part] of league.byDirection)
        add(direction, his?.byDirection.get(direction) ?? NOTHING, part);
    }
    if (spread.surplus === null) continue;
    const { slope } = spread.surplus;
    cells.push({
      facet,
      ballClass,
      direction: -1,
      isSurplus: true,
      own: all,
      league: league.all,
      evidence: normalCell(all.done, all.surplus, league.all.surplusNoise),
      expected: slope * expected.mean,
    });
  }
  return cells;
}

/** Prior covariance of the cells, every spread at the same point of its posterior. */
function priorInto(
  prior: Float64Array,
  man: number,
  cells: readonly RatedCell[],
  spreads: SkillSpreads,
  draw: number,
): void {
  const n = cells.length;
  const own = cells.map(({ facet }) => spreads.facets.get(facet)!);
  const unsure = cells.map(({ facet }) => expectedShift(spreads.expected, facet, man).sd);
  // How much of the man's shift at the facet, and of what is not known of its expectation, is in each cell.
  const share = cells.map(({ isSurplus }, c) => (isSurplus ? own[c].surplus!.slope : 1));
  const load = share.map((part, c) => part * own[c].man.draws[draw]);
  for (let c = 0; c < n; c += 1) {
    for (let d = 0; d < n; d += 1) {
      prior[c * n + d] = facetCorrelation(spreads.shared, cells[c].facet, cells[d].facet) * load[c] * load[d];
      if (cells[c].facet === cells[d].facet) prior[c * n + d] += share[c] * share[d] * unsure[c] ** 2;
    }
    if (cells[c].isSurplus) prior[c * n + c] += own[c].surplus!.spread ** 2;
    else prior[c * n + c] += (own[c].direction?.draws[draw] ?? 0) ** 2;
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
    const shifts = ofClass.filter((c) => !cells[c].isSurplus);
    if (shifts.length === 1) continue;
    const surplus = ofClass.filter((c) => cells[c].isSurplus);
    for (const c of shifts) parts.push(new PartRating(cells, [c, ...surplus], cells[c], position, scale));
  }
  return parts;
}
