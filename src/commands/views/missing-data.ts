import type { Cell, Store } from '../../book/store.ts';

/** Tables that missingData reads. */
export const MISSING_DATA_TABLES = ['marks', 'plays', 'intake_log', 'set_aside'] as const;

type Rows = readonly Readonly<Record<string, Cell>>[];

/** What a book has and lacks, over all kinds of ball. */
export interface MissingData {
  /** `ball_kind`, `grade`, `plays`. */
  readonly grades: Rows;
  /** `flag`, `plays`, `share` of the plays in the ledger; most frequent first. */
  readonly flags: Rows;
  /** `column`, `missing`, `share` of all plays read in: columns of `plays` that are not always filled. */
  readonly columns: Rows;
  /** `file`, `table`, `read`, `loaded`, `set_aside`. */
  readonly files: Rows;
  /** `table`, `column`, `reason`, `rows`; most frequent first. */
  readonly reasons: Rows;
}

/** Columns whose gaps take something away from the ledger, and of which balls they are expected. */
const EXPECTED: readonly (readonly [column: string, of: string])[] = [
  ['exit_speed_mph', 'true'],
  ['launch_angle_deg', 'true'],
  ['bearing_deg', "ball_kind = 'ground' OR landing_x_ft IS NULL"],
  ['landing_x_ft', "ball_kind IN ('fly', 'liner', 'popup')"],
  ['hang_time_s', "ball_kind IN ('fly', 'liner', 'popup')"],
  ['gather_x_ft', 'gathered_by IS NOT NULL'],
  ['gather_time_s', 'gathered_by IS NOT NULL'],
  ['batter_to_first_s', 'true'],
  ['surface', 'true'],
  ['runs_rest_of_inning', 'true'],
];

export async function missingData(store: Store): Promise<MissingData> {
  const counts = EXPECTED.map(
    ([
      column,
      of,
    ]) => `SELECT '${column}' AS "column", count(*) FILTER (${column} IS NULL AND (${of}))::INTEGER AS missing,
      count(*) FILTER (${of})::INTEGER AS expected FROM plays`,
  ).join(' UNION ALL ');
  return {
    grades: await store.rows(
      'SELECT ball_kind, grade, count(*)::INTEGER AS plays FROM marks GROUP BY ALL ORDER BY ball_kind, grade',
    ),
    flags: await store.rows(`SELECT flag, count(*)::INTEGER AS plays, count(*) / (SELECT count(*) FROM marks) AS share
      FROM (SELECT unnest(string_split(flags, ' ')) AS flag FROM marks) WHERE flag <> '' GROUP BY flag ORDER BY plays DESC, flag`),
    columns: await store.rows(
      `SELECT "column", missing, missing / greatest(expected, 1) AS share FROM (${counts}) WHERE missing > 0 ORDER BY share DESC, "column"`,
    ),
    files: await store.rows('SELECT file, "table", read, loaded, set_aside FROM intake_log ORDER BY file'),
    reasons: await store.rows(`SELECT "table", coalesce("column", '') AS "column", reason, count(*)::INTEGER AS rows
      FROM set_aside GROUP BY ALL ORDER BY rows DESC, "table", "column", reason`),
  };
}
