import type { FielderTotals } from '../../ledger/season-totals.ts';
import { intervalOf } from '../../ratings/intervals.ts';
import type { ManRating } from '../../ratings/part-rating.ts';
import type { SkillKind } from '../../ratings/skills.ts';
import type { RatedBook } from '../rate-book.ts';
import type { TableWriter } from './columns.ts';

/** Columns `<skill>_rating` with their 80 % intervals; empty for a man whom no fully recorded play shows there. */
export function addRatings<Row extends Pick<FielderTotals, 'fielder' | 'position'> & { readonly ratedSeason: number }>(
  writer: TableWriter<Row>,
  rated: RatedBook,
): TableWriter<Row> {
  for (const kind of ['reach', 'finish'] as const) {
    const ratings = wholePositions(rated, kind);
    const of = ({ ratedSeason, fielder, position }: Row) => ratings.get(`${ratedSeason} ${fielder} ${position}`);
    const bound = (row: Row, end: 0 | 1) => {
      const own = of(row);
      return own === undefined ? Number.NaN : intervalOf(own.rating, 80)[end];
    };
    writer
      .number(`${kind}_rating`, (row) => of(row)?.rating.mean ?? Number.NaN)
      .number(`${kind}_rating_lo80`, (row) => bound(row, 0))
      .number(`${kind}_rating_hi80`, (row) => bound(row, 1));
  }
  return writer;
}

/** Ratings of whole positions by season, man and position. */
function wholePositions({ seasons }: RatedBook, kind: SkillKind): Map<string, ManRating> {
  const found = new Map<string, ManRating>();
  for (const season of seasons) {
    for (const own of season[kind]) {
      if (own.ballClass === -1) found.set(`${season.toSeason} ${own.man} ${own.position}`, own);
    }
  }
  return found;
}
