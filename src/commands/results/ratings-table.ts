import type { ColumnTable } from '../../book/store.ts';
import type { PlayTable } from '../../chances/play-table.ts';
import { directionName, WHOLE_PART } from '../../ratings/directions.ts';
import { INTERVAL_LEVELS, intervalOf } from '../../ratings/intervals.ts';
import type { ManRating } from '../../ratings/part-rating.ts';
import type { SeasonRatings } from '../../ratings/rate-seasons.ts';
import type { SkillSpreads } from '../../ratings/skill-spreads.ts';
import { facetOf } from '../../ratings/skill-window.ts';
import { BALL_CLASSES, type SkillKind } from '../../ratings/skills.ts';
import type { RatedBook } from '../rate-book.ts';
import { TableWriter } from './columns.ts';
import { personId } from './person-id.ts';

interface RatingRow extends ManRating {
  readonly season: number;
  readonly fromSeason: number;
  readonly kind: SkillKind;
  readonly part: string;
  readonly spread: number;
}

/** One row a season, defender, position, skill and part of it: sample, shift, rating, intervals. */
export function ratingsTable(table: PlayTable, rated: RatedBook): ColumnTable {
  const rows = rated.seasons.flatMap((season) => [
    ...ratingRows(season, 'reach', season.reach, season.reachSpreads, rated.hands),
    ...ratingRows(season, 'finish', season.finish, season.finishSpreads, rated.hands),
  ]);
  const writer = new TableWriter(rows)
    .integer('season', ({ season }) => season)
    .integer('from_season', ({ fromSeason }) => fromSeason)
    .text('fielder_id', ({ man }) => personId(table, man))
    .integer('position', ({ position }) => position)
    .text('kind', ({ kind }) => kind)
    .text('part', ({ part }) => part)
    .integer('tries', ({ rows }) => rows)
    .number('chances', ({ chances }) => chances)
    .integer('made', ({ done }) => done)
    .number('rating', ({ rating }) => rating.mean);
  for (const level of INTERVAL_LEVELS) {
    writer
      .number(`lo${level}`, ({ rating }) => intervalOf(rating, level)[0])
      .number(`hi${level}`, ({ rating }) => intervalOf(rating, level)[1]);
  }
  return writer
    .number('shift', ({ shift }) => shift.mean)
    .number('shift_sd', ({ shift }) => shift.sd)
    .number('spread', ({ spread }) => spread)
    .table();
}

function* ratingRows(
  { fromSeason, toSeason }: SeasonRatings,
  kind: SkillKind,
  ratings: readonly ManRating[],
  spreads: SkillSpreads,
  hands: Uint8Array,
): Generator<RatingRow> {
  for (const rating of ratings) {
    const { ballClass, direction, position, man } = rating;
    if (isRepeated(rating, kind)) continue;
    const facet = spreads.facets.get(facetOf(classOf(rating, kind), position));
    yield {
      ...rating,
      season: toSeason,
      fromSeason,
      kind,
      part:
        direction >= 0
          ? directionName(direction, hands[man])
          : ballClass >= 0
            ? `${BALL_CLASSES[ballClass]}`
            : WHOLE_PART,
      spread: (direction >= 0 ? facet?.direction : facet?.man)?.likeliest ?? Number.NaN,
    };
  }
}

/** The class of balls that a rating is about; for an infielder's reach as a whole there is none (-1). */
function classOf({ ballClass, position }: ManRating, kind: SkillKind): number {
  if (ballClass >= 0) return ballClass;
  if (kind === 'finish') return 0;
  return position > 6 ? 1 : -1;
}

/** A class of balls by itself says nothing new where the position, or the skill, has no other; its row is left out. */
function isRepeated({ ballClass, direction, position }: ManRating, kind: SkillKind): boolean {
  return direction === -1 && ballClass >= 0 && (kind === 'finish' || position > 6);
}
