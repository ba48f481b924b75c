import type { Store } from '../book/store.ts';
import { FAULT_MARK } from './row-checks.ts';
import { candidates, keepVerdicts, REPEATED, stageName, verdicts } from './stage.ts';

/**
 * Starts against their plays, which are in the book by now: the play is there, and the fielder is on the fielding side.
 * Needs the table `sides` (judge-sides.ts).
 */
export async function judgeStartsAgainstPlays(store: Store, playsStaged: boolean): Promise<void> {
  const lost = playsStaged
    ? `(SELECT DISTINCT play_id FROM ${stageName('plays')} s JOIN ${verdicts('plays')} v ON v.row_no = s.rowid
        WHERE v.fault <> '${REPEATED}' AND play_id IS NOT NULL)`
    : `(SELECT NULL::VARCHAR AS play_id WHERE false)`;
  await keepVerdicts(
    store,
    'starts',
    'plays',
    `SELECT s.row_no, CASE
        WHEN p.play_id IS NULL AND lost.play_id IS NOT NULL THEN 'lost_play${FAULT_MARK}' || s.play_id
        WHEN p.play_id IS NULL THEN 'no_play${FAULT_MARK}' || s.play_id
        WHEN s.fielder_id = p.batter_id THEN 'is_batter${FAULT_MARK}' || s.fielder_id
        ELSE 'wrong_side${FAULT_MARK}' || s.fielder_id || '${FAULT_MARK}' || p.batting_team END
    FROM ${candidates('starts')} s
    LEFT JOIN plays p ON p.play_id = s.play_id
    LEFT JOIN ${lost} lost ON lost.play_id = s.play_id
    LEFT JOIN sides ON sides.game_id = p.game_id AND sides.person = s.fielder_id
    WHERE p.play_id IS NULL OR s.fielder_id = p.batter_id OR sides.team = p.batting_team`,
  );
}

/** Table of the play_ids that may have a position or a fielder twice. */
export const SUSPECTS = 'suspect_plays';

/**
 * Finds the few plays in which a position or a fielder may stand twice, in one pass over the starts: a bit for each
 * position, and for fielders three bits of the hash of the name, of which by chance all three fall together in one play
 * of twelve. Grouping every pair of play and fielder would cost more than the rest of the checks.
 */
export async function createSuspects(store: Store, bookHasStarts: boolean): Promise<void> {
  const clash = (mask: string) => `bit_count(bit_or(1::UBIGINT << (${mask})::UBIGINT)) <> count(*)`;
  const fielder = [0, 8, 16].map((shift) => clash(`(hash(fielder_id) >> ${shift}) % 64`)).join(' AND ');
  const earlier = bookHasStarts
    ? `UNION ALL SELECT play_id, position, fielder_id FROM starts WHERE play_id IN (SELECT play_id FROM ${stageName('starts')})`
    : '';
  await store.run(`CREATE OR REPLACE TEMP TABLE ${SUSPECTS} AS
    SELECT play_id FROM (SELECT play_id, position, fielder_id FROM ${candidates('starts')} ${earlier})
    GROUP BY play_id HAVING ${clash('position')} OR (${fielder})`);
}

/** One fielder at two positions of a play: the later row is set aside. Starts of the book count as earlier. */
export async function judgeTwoPlaces(store: Store, bookHasStarts: boolean): Promise<void> {
  const earlier = bookHasStarts
    ? `UNION ALL SELECT -1, play_id, position, fielder_id FROM starts SEMI JOIN ${SUSPECTS} USING (play_id)
       WHERE NOT EXISTS (SELECT 1 FROM ${candidates('starts')} c WHERE c.play_id = starts.play_id AND c.position = starts.position)`
    : '';
  await keepVerdicts(
    store,
    'starts',
    'places',
    `WITH places AS (
      SELECT row_no, play_id, position, fielder_id FROM ${candidates('starts')} SEMI JOIN ${SUSPECTS} USING (play_id) ${earlier})
    SELECT row_no, 'two_places${FAULT_MARK}' || fielder_id || '${FAULT_MARK}' || first_position FROM (
      SELECT row_no, fielder_id, first_value(position) OVER w AS first_position, row_number() OVER w AS nth
      FROM places WINDOW w AS (PARTITION BY play_id, fielder_id ORDER BY row_no))
    WHERE nth > 1 AND row_no >= 0`,
  );
}
