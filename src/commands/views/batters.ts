import type { ColumnTable, Store } from '../../book/store.ts';

/** Tables that batters reads. */
export const BATTERS_TABLES = ['plays', 'people'] as const;

/**
 * Everybody who bats, a row a man: the club for which he hit his latest ball, and how many balls of his were put in play from each
 * side. By club, those with the most balls first.
 */
export function batters(store: Store): Promise<ColumnTable> {
  return store.query(`SELECT batter_id, min(people.name) AS name, arg_max(batting_team, date) AS team,
      count(*) FILTER (batter_side = 'L')::INTEGER AS balls_left, count(*) FILTER (batter_side = 'R')::INTEGER AS balls_right
    FROM plays LEFT JOIN (SELECT person_id, min(name) AS name FROM people GROUP BY person_id) AS people ON person_id = batter_id
    WHERE batter_id IS NOT NULL AND ball_kind <> 'bunt'
    GROUP BY batter_id ORDER BY team, count(*) DESC, batter_id`);
}
