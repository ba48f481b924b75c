import type { Store } from '../../book/store.ts';

/** A word and how many plays it holds for. */
export interface Count {
  readonly name: string;
  readonly plays: number;
}

/** Rows that intake could not use, by what was wrong with them. */
export interface SetAsideReason {
  readonly table: string;
  readonly column: string;
  readonly reason: string;
  readonly rows: number;
}

/** Sums of p(1 - p) of the marks of a season and grade: what they can tell about a shift. */
export interface MarkInformation {
  readonly season: number;
  readonly grade: string;
  readonly opening: number;
  readonly set: number;
  readonly gathered: number;
}

/** What a book has and lacks. */
export interface DataShares {
  readonly information: readonly MarkInformation[];
  /** Grounders with marks. */
  readonly marked: number;
  readonly grades: readonly Count[];
  /** Flags of grounders, most frequent first; a play may have several. */
  readonly flags: readonly Count[];
  readonly read: number;
  readonly loaded: number;
  readonly setAside: number;
  /** Most frequent first. */
  readonly reasons: readonly SetAsideReason[];
}

/** Counts grades, flags and rows set aside, from the book's own tables. */
export async function readDataShares(store: Store): Promise<DataShares> {
  const grades = await store.rows(
    "SELECT grade AS name, count(*) AS plays FROM marks WHERE ball_kind = 'ground' GROUP BY grade ORDER BY grade",
  );
  const flags = await store.rows(`SELECT flag AS name, count(*) AS plays
    FROM (SELECT unnest(string_split(flags, ' ')) AS flag FROM marks WHERE ball_kind = 'ground') WHERE flag <> ''
    GROUP BY flag ORDER BY plays DESC, name`);
  const [log] = await store.rows(`SELECT coalesce(sum(read), 0) AS read, coalesce(sum(loaded), 0) AS loaded,
    coalesce(sum(set_aside), 0) AS aside FROM intake_log`);
  const reasons = await store.rows(`SELECT "table", coalesce("column", '') AS "column", reason, count(*) AS rows
    FROM set_aside GROUP BY ALL ORDER BY rows DESC, "table", "column", reason`);
  const spread = (mark: string) => `coalesce(sum("${mark}" * (1 - "${mark}")), 0) AS "${mark}"`;
  const information = await store.rows(`SELECT season, grade, ${['opening', 'set', 'gathered'].map(spread).join(', ')}
    FROM marks WHERE ball_kind = 'ground' GROUP BY season, grade ORDER BY season, grade`);
  const counts = (rows: typeof grades) => rows.map(({ name, plays }) => ({ name: String(name), plays: Number(plays) }));
  return {
    information: information.map((row) => ({
      season: Number(row.season),
      grade: String(row.grade),
      opening: Number(row.opening),
      set: Number(row.set),
      gathered: Number(row.gathered),
    })),
    marked: grades.reduce((sum, { plays }) => sum + Number(plays), 0),
    grades: counts(grades),
    flags: counts(flags),
    read: Number(log!.read),
    loaded: Number(log!.loaded),
    setAside: Number(log!.aside),
    reasons: reasons.map((row) => ({
      table: String(row.table),
      column: String(row.column),
      reason: String(row.reason),
      rows: Number(row.rows),
    })),
  };
}
