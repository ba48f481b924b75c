import { DIRECTIONS } from './directions.ts';
import type { Evidence, LeagueChances, SkillEvidence } from './evidence.ts';
import type { Cell } from './man-posterior.ts';
import { CURVE_POINTS, ShiftCurve } from './shift-curve.ts';

/** A position on one class of balls: class * 10 + position. */
export type Facet = number;

export function facetOf(ballClass: number, position: number): Facet {
  return ballClass * 10 + position;
}
export function positionOf(facet: Facet): number {
  return facet % 10;
}
export function ballClassOf(facet: Facet): number {
  return Math.floor(facet / 10);
}

/** Sums of chances in one direction, or in all: rows, average chances, successes. */
export interface Part extends Cell {
  readonly rows: number;
  readonly chances: number;
  /** Outs that his successes came to more than the league's do. */
  readonly surplus: number;
  readonly curve: ShiftCurve;
}

/** One man at one facet: all his chances, and the same by direction (index of DIRECTIONS). */
export interface ManFacet {
  readonly man: number;
  readonly facet: Facet;
  readonly all: Part;
  readonly byDirection: ReadonlyMap<number, Part>;
}

/** The league's chances at a facet: their number, their sum, and the curve of chance times worth, in all and by direction. */
export interface LeaguePart {
  readonly rows: number;
  readonly chances: number;
  /** Variance of the surplus of one success; 0 where there is none. */
  readonly surplusNoise: number;
  readonly worth: ShiftCurve;
}
export interface LeagueFacet {
  readonly facet: Facet;
  readonly all: LeaguePart;
  readonly byDirection: ReadonlyMap<number, LeaguePart>;
}

/** The evidence of some seasons on one skill. */
export interface SkillWindow {
  readonly facets: ReadonlyMap<Facet, { readonly men: readonly ManFacet[]; readonly league: LeagueFacet }>;
}

/** Sums the evidence of the wanted seasons; `classes` has the evidence of each class of balls. */
export function openWindow(classes: readonly SkillEvidence[], wanted: (season: number) => boolean): SkillWindow {
  const facets = new Map<Facet, { men: ManFacet[]; league: LeagueFacet }>();
  classes.forEach(({ men, league }, ballClass) => {
    const leagueByFacet = groupBy(
      league.filter(({ season }) => wanted(season)),
      ({ position }) => facetOf(ballClass, position),
    );
    for (const [facet, list] of leagueByFacet) {
      facets.set(facet, {
        men: [],
        league: { facet, all: leaguePart(list), byDirection: byDirection(list, leaguePart) },
      });
    }
    const menByFacet = groupBy(
      men.filter(({ season }) => wanted(season)),
      ({ man, position }) => man * 100 + facetOf(ballClass, position),
    );
    for (const [key, list] of menByFacet) {
      const facet = key % 100;
      const own = { man: list[0].man, facet, all: manPart(list), byDirection: byDirection(list, manPart) };
      facets.get(facet)?.men.push(own);
    }
  });
  return { facets };
}

function groupBy<T>(list: readonly T[], keyOf: (item: T) => number): Map<number, T[]> {
  const groups = new Map<number, T[]>();
  for (const item of list) {
    const group = groups.get(keyOf(item));
    if (group === undefined) groups.set(keyOf(item), [item]);
    else group.push(item);
  }
  return groups;
}

function byDirection<T extends { readonly direction: number }, P>(
  list: readonly T[],
  partOf: (list: readonly T[]) => P,
): Map<number, P> {
  const groups = groupBy(list, ({ direction }) => direction);
  const parts = new Map<number, P>();
  for (const direction of DIRECTIONS.keys()) {
    const group = groups.get(direction);
    if (group !== undefined) parts.set(direction, partOf(group));
  }
  return parts;
}

function manPart(list: readonly Evidence[]): Part {
  const total = { rows: 0, chances: 0, done: 0, surplus: 0 };
  for (const { rows, chances, done, surplus } of list) {
    total.rows += rows;
    total.chances += chances;
    total.done += done;
    total.surplus += surplus;
  }
  return { ...total, curve: sumCurves(list) };
}

function leaguePart(list: readonly LeagueChances[]): LeaguePart {
  const total = { rows: 0, chances: 0 };
  let [done, squares] = [0, 0];
  for (const own of list) {
    total.rows += own.rows;
    total.chances += own.chances;
    done += own.done;
    squares += own.surplusSquares;
  }
  return { ...total, surplusNoise: done > 0 ? squares / done : 0, worth: sumCurves(list) };
}

function sumCurves(list: readonly { readonly sums: Float64Array }[]): ShiftCurve {
  const sums = new Float64Array(CURVE_POINTS);
  for (const own of list) for (let k = 0; k < CURVE_POINTS; k += 1) sums[k] += own.sums[k];
  return new ShiftCurve(sums);
}
