import type { Store } from '../book/store.ts';
import { FAULT_MARK } from './compile-rows.ts';
import { candidates, REPEATED, stageName, verdictName } from './stage.ts';

/**
 * Starts against their plays, which are in the book by now: the play is there, and the fielder is on the fielding side.
 * Needs the table `sides` (judge-sides.ts).
 */
export async function judgeStartsAgainstPlays(store: Store, playsStaged: boolean): Promise<void> {
  const lost = playsStaged
    ? `(SELECT DISTINCT play_id FROM ${stageName('plays')} s JOIN ${verdictName('plays')} v ON v.row_no = s.rowid
        WHERE v.fault <> '${REPEATED}' AND play_id IS NOT NULL)`
    : `(SELECT NULL::VARCHAR AS play_id WHERE false)`;
  await store.run(`INSERT INTO ${verdictName('starts')}
    SELECT s.row_no, CASE
        WHEN p.play_id IS NULL AND lost.play_id IS NOT NULL THEN 'lost_play${FAULT_MARK}' || s.play_id
        WHEN p.play_id IS NULL THEN 'no_play${FAULT_MARK}' || s.play_id
        WHEN s.fielder_id = p.batter_id THEN 'is_batter${FAULT_MARK}' || s.fielder_id
        ELSE 'wrong_side${FAULT_MARK}' || s.fielder_id || '${FAULT_MARK}' || p.batting_team END
    FROM ${candidates('starts')} s
    LEFT JOIN plays p ON p.play_id = s.play_id
    LEFT JOIN ${lost} lost ON lost.play_id = s.play_id
    LEFT JOIN sides ON sides.game_id = p.game_id AND sides.person = s.fielder_id
    WHERE p.play_id IS NULL OR s.fielder_id = p.batter_id OR sides.team = p.batting_team ORDER BY s.row_no`);
}

/** One fielder at two positions of a play: the later row is set aside. Starts of the book count as earlier. */
export async function judgeTwoPlaces(store: Store, bookHasStarts: boolean): Promise<void> {
  const earlier = bookHasStarts
    ? `UNION ALL SELECT -1, play_id, position, fielder_id FROM starts
       WHERE play_id IN (SELECT play_id FROM ${stageName('starts')})
         AND NOT EXISTS (SELECT 1 FROM ${candidates('starts')} c WHERE c.play_id = starts.play_id AND c.position = starts.position)`
    : '';
  await store.run(`CREATE OR REPLACE TEMP TABLE places AS
      SELECT row_no, play_id, position, fielder_id FROM ${candidates('starts')} ${earlier};
    INSERT INTO ${verdictName('starts')}
    SELECT row_no, 'two_places${FAULT_MARK}' || fielder_id || '${FAULT_MARK}' || first_position FROM (
      SELECT row_no, fielder_id, first_value(position) OVER w AS first_position, row_number() OVER w AS nth
      FROM places SEMI JOIN
        (SELECT play_id, fielder_id FROM places GROUP BY play_id, fielder_id HAVING count(*) > 1) USING (play_id, fielder_id)
      WINDOW w AS (PARTITION BY play_id, fielder_id ORDER BY row_no))
    WHERE nth > 1 AND row_no >= 0 ORDER BY row_no;
    DROP TABLE places`);
}
