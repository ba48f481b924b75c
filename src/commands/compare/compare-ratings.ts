import { quoteText } from '../../book/sql-text.ts';
import type { Cell, Store } from '../../book/store.ts';
import { normalProbability } from '../../numeric/normal-quantile.ts';
import type { Difference, Estimate } from '../../ratings/compare.ts';
import { isMainDirection, partOrder } from '../../ratings/directions.ts';

/** A skill's rating at a position, or in one direction there, or the difference of two. */
export interface ComparedRating<Value> {
  readonly position: number;
  readonly skill: 'reach' | 'finish';
  /** `all`, or a direction where the evidence tells men's directions apart: glove side, backhand and so on. */
  readonly part: string;
  readonly value: Value;
}

/** Half the width of an 80 % interval of a normal distribution, in standard deviations. */
const Z_90 = 1.2815515655446004;

/**
 * Ratings by defender, positions with the most chances first, each whole before its directions: those of one season, or of each man's
 * last at the position.
 */
export async function readRatings(
  store: Store,
  ids: readonly string[],
  { position, season }: { readonly position?: number | undefined; readonly season?: number | undefined },
): Promise<Map<string, ComparedRating<Estimate>[]>> {
  const rows = await store.rows(
    `SELECT fielder_id, position, kind, part, rating, lo80, hi80
     FROM ratings JOIN (
       SELECT fielder_id, position, max(season) AS season, sum(fielders.chances) AS seen FROM fielders
       WHERE fielder_id IN (${ids.map(quoteText).join(', ')})
         ${position === undefined ? '' : `AND position = ${position}`} ${season === undefined ? '' : `AND season = ${season}`}
       GROUP BY fielder_id, position
     ) USING (fielder_id, position, season)
     WHERE part NOT IN ('ground', 'air')
     ORDER BY seen DESC, position, kind DESC`,
  );
  return new Map(ids.map((id) => [id, orderRatings(rows.filter((row) => row.fielder_id === id).map(ratingOf))]));
}

/** In the order of their skills and positions, each as a whole before its directions. */
export function orderRatings<Value>(ratings: readonly ComparedRating<Value>[]): ComparedRating<Value>[] {
  const groupOf = ({ position, skill }: ComparedRating<Value>) => `${skill} ${position}`;
  const groups = [...new Set(ratings.map(groupOf))];
  return [...ratings].sort(
    (a, b) => groups.indexOf(groupOf(a)) - groups.indexOf(groupOf(b)) || partOrder(a.part) - partOrder(b.part),
  );
}

function ratingOf(row: Record<string, Cell>): ComparedRating<Estimate> {
  return {
    position: Number(row.position),
    skill: row.kind === 'reach' ? 'reach' : 'finish',
    part: String(row.part),
    value: { value: Number(row.rating), lo80: Number(row.lo80), hi80: Number(row.hi80) },
  };
}

/**
 * Differences at the positions, and in the directions, where both have a rating. Ratings are taken as independent and normal, with standard
 * deviations read off their intervals: men are rated from different balls, but against the same league.
 */
export function compareRatings(
  ones: readonly ComparedRating<Estimate>[],
  others: readonly ComparedRating<Estimate>[],
): ComparedRating<Difference>[] {
  return ones.flatMap(({ value: one, ...of }) => {
    const isSame = ({ position, skill, part }: ComparedRating<Estimate>) =>
      position === of.position && skill === of.skill && part === of.part;
    const other = others.find(isSame)?.value;
    if (other === undefined) return [];
    const sd = Math.hypot(one.hi80 - one.lo80, other.hi80 - other.lo80) / (2 * Z_90);
    const value = one.value - other.value;
    const chanceAbove = sd > 0 ? normalProbability(value / sd) : value > 0 ? 1 : value < 0 ? 0 : 0.5;
    return [{ ...of, value: { value, lo80: value - Z_90 * sd, hi80: value + Z_90 * sd, chanceAbove } }];
  });
}

/** Positions with a rating of reach but none by the directions that matter there: the evidence does not carry them. */
export function positionsWithoutDirections(ratings: readonly ComparedRating<Estimate>[]): number[] {
  const reach = ratings.filter(({ skill }) => skill === 'reach');
  const told = new Set(
    reach.filter(({ part, position }) => isMainDirection(part, position)).map(({ position }) => position),
  );
  return [...new Set(reach.map(({ position }) => position))].filter((position) => !told.has(position)).sort();
}
