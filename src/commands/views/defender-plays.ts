import { quoteText } from '../../book/sql-text.ts';
import type { ColumnTable, Store } from '../../book/store.ts';

export interface DefenderQuestion {
  readonly fielderId: string;
  readonly season: number;
  /** Scorekeeper's number. */
  readonly position: number;
}

/** Tables that defenderPlays reads. */
export const DEFENDER_PLAYS_TABLES = ['entries', 'plays', 'starts'] as const;

const sumOf = (kind: string, unit: string) => `coalesce(sum(${unit}) FILTER (kind = '${kind}'), 0) AS ${kind}_${unit}`;
const KINDS = ['placement', 'reach', 'finish', 'turn', 'ground', 'whole'] as const;
const SUMS = ['outs', 'runs'].flatMap((unit) => KINDS.map((kind) => sumOf(kind, unit)));

/**
 * One defender's plays of a season at a position, a row a play: his entries summed by kind, the net, and `spot_x_ft`,
 * `spot_y_ft`: where the ball's line passed nearest to his start, or where a ball in the air came down (feet, method.md 1).
 * The plays that meant most come first, gained or lost.
 */
export function defenderPlays(store: Store, { fielderId, season, position }: DefenderQuestion): Promise<ColumnTable> {
  return store.query(`WITH mine AS (
      SELECT play_id, sum(outs) AS net_outs, sum(runs) AS net_runs, ${SUMS.join(', ')}
      FROM entries WHERE fielder_id = ${quoteText(fielderId)} AND season = ${season} AND position = ${position}
      GROUP BY play_id
    ), placed AS (
      SELECT mine.*, date, batting_team, batter_id, ball_kind, result, bearing_deg, landing_x_ft, landing_y_ft,
        radians(bearing_deg) AS theta, hypot_ft, beta
      FROM mine JOIN plays USING (play_id)
      LEFT JOIN (
        SELECT play_id, sqrt(start_x_ft ** 2 + start_y_ft ** 2) AS hypot_ft, atan2(start_x_ft, start_y_ft) AS beta
        FROM starts WHERE position = ${position}
      ) USING (play_id)
    )
    SELECT play_id, date, batting_team, batter_id, ball_kind, result, bearing_deg, net_outs, net_runs,
      ${['outs', 'runs'].flatMap((unit) => KINDS.map((kind) => `${kind}_${unit}`)).join(', ')},
      CASE WHEN ball_kind = 'ground' THEN hypot_ft * cos(theta - beta) * sin(theta) ELSE landing_x_ft END AS spot_x_ft,
      CASE WHEN ball_kind = 'ground' THEN hypot_ft * cos(theta - beta) * cos(theta) ELSE landing_y_ft END AS spot_y_ft
    FROM placed ORDER BY abs(net_runs) DESC, play_id`);
}
