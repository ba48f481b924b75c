import { BUILD_ID, readInfo, readSettings } from '../../book/book-info.ts';
import type { Book } from '../../book/open-book.ts';
import type { Cell } from '../../book/store.ts';
import { ExpectedFailure } from '../../expected-failure.ts';

export type Row = Readonly<Record<string, Cell>>;

/** What a report is made of. */
export interface ReportData {
  readonly season: number;
  readonly seasons: readonly number[];
  readonly buildId: string;
  readonly settings: Readonly<Record<string, string>>;
  readonly plays: readonly Row[];
  readonly balance: readonly Row[];
  readonly teams: readonly Row[];
  readonly fielders: readonly Row[];
  readonly runTable: readonly Row[];
  readonly reliability: readonly Row[];
  readonly intake: readonly Row[];
}

/**
 * @param season the season to report; the last one unless given
 * @throws ExpectedFailure `book`: not built; `usage`: no such season
 */
export async function readReport({ store, dir }: Book, season?: number): Promise<ReportData> {
  const buildId = await readInfo(store, BUILD_ID);
  const seasons = (await store.rows('SELECT DISTINCT season FROM teams ORDER BY 1')).map((row) => row.season as number);
  const last = seasons.at(-1);
  if (buildId === null || last === undefined) {
    throw new ExpectedFailure(
      'book',
      `The book ${dir} has not been built: there is nothing to report.`,
      `Run: leatherbook build --book ${dir}`,
    );
  }
  const chosen = season ?? last;
  if (!seasons.includes(chosen)) {
    throw new ExpectedFailure(
      'usage',
      `The book ${dir} has no season ${chosen}.`,
      `Its seasons are ${seasons.join(', ')}.`,
    );
  }
  return {
    season: chosen,
    seasons,
    buildId,
    settings: await readSettings(store),
    plays: await store.rows(
      `SELECT ball_kind, count(*) AS n FROM plays WHERE coalesce(season, year(date)) = ${chosen} GROUP BY 1 ORDER BY n DESC`,
    ),
    balance: await store.rows(`SELECT * FROM balance WHERE season = ${chosen} ORDER BY ball_class, mark_or_kind`),
    teams: await store.rows(`SELECT * FROM teams WHERE season = ${chosen} ORDER BY net_runs DESC, team`),
    fielders: await store.rows(
      `SELECT * FROM fielders WHERE season = ${chosen} ORDER BY position, net_runs DESC, fielder_id, team`,
    ),
    runTable: await store.rows('SELECT * FROM run_table ORDER BY outs, rowid'),
    reliability: await store.rows(
      `SELECT * FROM reliability WHERE method = 'split_half' AND r IS NOT NULL ORDER BY kind, position, min_chances`,
    ),
    intake: await store.rows('SELECT * FROM intake_log ORDER BY rowid'),
  };
}
