import type { Store } from '../book/store.ts';
import { FAULT_MARK } from './row-checks.ts';
import { candidates, keepVerdicts, stageName } from './stage.ts';

/**
 * Whose side each person is on in each game. Nobody plays for both clubs in one game; the club for which a person batted
 * or pitched most often there is his. The majority, because a single row with the clubs the wrong way round must not
 * turn the others against it.
 */
export async function createSides(store: Store, withStage: boolean): Promise<void> {
  const source = withStage
    ? `(SELECT game_id, batter_id, pitcher_id, batting_team, fielding_team FROM ${candidates('plays')}
        UNION ALL SELECT game_id, batter_id, pitcher_id, batting_team, fielding_team FROM plays
        WHERE game_id IN (SELECT game_id FROM ${stageName('plays')}))`
    : 'plays';
  await store.run(`CREATE OR REPLACE TEMP TABLE sides AS
    SELECT game_id, person, arg_max(team, votes) AS team FROM (
      SELECT game_id, person, team, sum(n) AS votes FROM (
        SELECT game_id, batter_id AS person, batting_team AS team, count(*) AS n FROM ${source} GROUP BY ALL
        UNION ALL
        SELECT game_id, pitcher_id, fielding_team, count(*) FROM ${source} WHERE pitcher_id IS NOT NULL GROUP BY ALL)
      GROUP BY ALL)
    GROUP BY game_id, person
    -- A tie tells nothing.
    HAVING len(max(votes, 2)) = 1 OR max(votes, 2)[1] > max(votes, 2)[2]`);
}

/** Plays in which the batter is of the fielding club, or the pitcher of the batting club. */
export async function judgePlaySides(store: Store): Promise<void> {
  await keepVerdicts(
    store,
    'plays',
    'sides',
    `SELECT p.row_no, CASE WHEN b.team = p.fielding_team THEN 'batter_side${FAULT_MARK}' || p.batter_id || '${FAULT_MARK}' || b.team
      ELSE 'pitcher_side${FAULT_MARK}' || p.pitcher_id || '${FAULT_MARK}' || f.team END
    FROM ${candidates('plays')} p
    LEFT JOIN sides b ON b.game_id = p.game_id AND b.person = p.batter_id
    LEFT JOIN sides f ON f.game_id = p.game_id AND f.person = p.pitcher_id
    WHERE b.team = p.fielding_team OR f.team = p.batting_team`,
  );
}
