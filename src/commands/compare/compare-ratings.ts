import { quoteText } from '../../book/sql-text.ts';
import type { Cell, Store } from '../../book/store.ts';
import { normalProbability } from '../../numeric/normal-quantile.ts';
import type { Difference, Estimate } from '../../ratings/compare.ts';

/** A skill's rating at a position, or the difference of two. */
export interface ComparedRating<Value> {
  readonly position: number;
  readonly skill: 'reach' | 'finish';
  readonly value: Value;
}

/** Half the width of an 80 % interval of a normal distribution, in standard deviations. */
const Z_90 = 1.2815515655446004;

/** Ratings by defender, positions with the most chances first: those of one season, or of each man's last. */
export async function readRatings(
  store: Store,
  ids: readonly string[],
  { position, season }: { readonly position?: number | undefined; readonly season?: number | undefined },
): Promise<Map<string, ComparedRating<Estimate>[]>> {
  const rows = await store.rows(
    `SELECT DISTINCT ON (fielder_id, position) fielder_id, position, chances, reach_rating, reach_rating_lo80,
       reach_rating_hi80, finish_rating, finish_rating_lo80, finish_rating_hi80
     FROM ${season === undefined ? 'careers' : 'fielders'}
     WHERE fielder_id IN (${ids.map(quoteText).join(', ')})
       ${position === undefined ? '' : `AND position = ${position}`} ${season === undefined ? '' : `AND season = ${season}`}
     ORDER BY fielder_id, position, chances DESC`,
  );
  return new Map(
    ids.map((id) => {
      const own = rows.filter((row) => row.fielder_id === id).sort((a, b) => Number(b.chances) - Number(a.chances));
      return [id, own.flatMap((row) => [...ratingsOf(row)])];
    }),
  );
}

function* ratingsOf(row: Record<string, Cell>): Generator<ComparedRating<Estimate>> {
  for (const skill of ['reach', 'finish'] as const) {
    const [value, lo80, hi80] = ['', '_lo80', '_hi80'].map((end) => row[`${skill}_rating${end}`]);
    if (typeof value !== 'number' || typeof lo80 !== 'number' || typeof hi80 !== 'number') continue;
    yield { position: Number(row.position), skill, value: { value, lo80, hi80 } };
  }
}

/**
 * Differences at the positions where both have a rating. Ratings are taken as independent and normal, with standard
 * deviations read off their intervals: men are rated from different balls, but against the same league.
 */
export function compareRatings(
  ones: readonly ComparedRating<Estimate>[],
  others: readonly ComparedRating<Estimate>[],
): ComparedRating<Difference>[] {
  return ones.flatMap(({ position, skill, value: one }) => {
    const other = others.find((rating) => rating.position === position && rating.skill === skill)?.value;
    if (other === undefined) return [];
    const sd = Math.hypot(one.hi80 - one.lo80, other.hi80 - other.lo80) / (2 * Z_90);
    const value = one.value - other.value;
    const chanceAbove = sd > 0 ? normalProbability(value / sd) : value > 0 ? 1 : value < 0 ? 0 : 0.5;
    return [{ position, skill, value: { value, lo80: value - Z_90 * sd, hi80: value + Z_90 * sd, chanceAbove } }];
  });
}
