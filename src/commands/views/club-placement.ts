import { quoteText } from '../../book/sql-text.ts';
import type { ColumnTable, Store } from '../../book/store.ts';

/** Tables that clubPlacement reads. */
export const CLUB_PLACEMENT_TABLES = ['entries', 'plays', 'alignments', 'marks'] as const;

/**
 * A club's placement in a season, a row a batter's side and whether the infield stood in an overshift: plays with a set
 * mark, outs and runs of placement, and `placement_runs_se`. The error is what resampling whole games with Poisson weights
 * comes to for a sum: the root of the sum over games of the squared sum within the game (method.md 11).
 */
export function clubPlacement(store: Store, team: string, season: number): Promise<ColumnTable> {
  return store.query(`WITH plays_of_club AS (
      SELECT plays.play_id, game_id, batter_side, alignments.name = 'overshift' AS in_overshift
      FROM plays JOIN marks USING (play_id) JOIN alignments USING (play_id)
      WHERE fielding_team = ${quoteText(team)} AND marks.season = ${season} AND grade = 'full' AND alignments.name IS NOT NULL
    ), by_play AS (
      SELECT play_id, sum(outs) AS outs, sum(runs) AS runs FROM entries
      WHERE kind = 'placement' AND season = ${season} AND team = ${quoteText(team)} GROUP BY play_id
    ), by_game AS (
      SELECT batter_side, in_overshift, game_id, count(*) AS plays, coalesce(sum(outs), 0) AS outs, coalesce(sum(runs), 0) AS runs
      FROM plays_of_club LEFT JOIN by_play USING (play_id) GROUP BY ALL
    )
    SELECT batter_side, in_overshift, sum(plays)::INTEGER AS plays, sum(outs) AS placement_outs, sum(runs) AS placement_runs,
      sqrt(sum(runs * runs)) AS placement_runs_se
    FROM by_game GROUP BY ALL ORDER BY batter_side, in_overshift`);
}
