import type { ColumnTable, Store } from '../../book/store.ts';

/** Tables that latestPlays reads. */
export const LATEST_PLAYS_TABLES = ['entries', 'plays', 'marks'] as const;

export interface LatestPlays {
  /** The last date of the season with plays in the ledger, ISO; null when there is none. */
  readonly date: string | null;
  readonly playCount: number;
  /** By club: plays in the field and the kinds of entry summed in runs, the largest net first. */
  readonly clubs: ColumnTable;
  /** The entries that meant most, gained or lost. */
  readonly entries: ColumnTable;
}

const SHOWN_ENTRIES = 12;

/** What the latest date of a season brought. */
export async function latestPlays(store: Store, season: number): Promise<LatestPlays> {
  const [latest] = await store.rows(`SELECT strftime(max(date), '%Y-%m-%d') AS day
    FROM plays JOIN marks USING (play_id) WHERE marks.season = ${season}`);
  const date = typeof latest?.day === 'string' ? latest.day : null;
  const onDay = `SELECT play_id, fielding_team FROM plays JOIN marks USING (play_id)
    WHERE marks.season = ${season} AND date = ${date === null ? 'NULL' : `DATE '${date}'`}`;
  const [counted] = await store.rows(`SELECT count(*) AS n FROM (${onDay})`);
  const sums = ['placement', 'reach', 'finish', 'turn', 'ground']
    .map((kind) => `coalesce(sum(runs) FILTER (kind = '${kind}'), 0) AS ${kind}_runs`)
    .join(', ');
  const clubs =
    await store.query(`SELECT team, count(DISTINCT play_id)::INTEGER AS plays, ${sums}, sum(runs) AS net_runs
    FROM entries JOIN (${onDay}) USING (play_id) GROUP BY team ORDER BY net_runs DESC, team`);
  const entries = await store.query(`SELECT play_id, fielder_id, position, team, kind, outs, runs
    FROM entries JOIN (${onDay}) USING (play_id)
    ORDER BY abs(runs) DESC, play_id, position, kind LIMIT ${SHOWN_ENTRIES}`);
  return { date, playCount: Number(counted?.n), clubs, entries };
}
