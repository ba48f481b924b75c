import { basename, resolve } from 'node:path';
import type { Hono } from 'hono';
import { BUILD_ID, readInfo, readSettings } from '../../book/book-info.ts';
import { programVersion } from '../../book/program-version.ts';
import type { BookAnswer } from '../answers.ts';
import type { BookCopy } from '../book-copy.ts';
import { namesOf } from '../names-of.ts';
import type { Workbench } from '../workbench.ts';

export function addBookRoutes(app: Hono, { source }: Workbench): void {
  app.get('/api/book', async (context) => {
    const copy = await source.current();
    const { behind } = copy;
    const about = await copy.cached('book', () => readAbout(copy, source.dir));
    return context.json<BookAnswer>({
      ...about,
      behind: behind === null ? null : { message: behind.message, remedy: behind.remedy },
    });
  });
  app.get('/api/names', async (context) => {
    const copy = await source.current();
    return context.json(await namesOf(copy));
  });
}

async function readAbout(copy: BookCopy, dir: string): Promise<Omit<BookAnswer, 'behind'>> {
  const store = await copy.tables('book_info', 'build_settings', 'plays');
  const seasons = await store.rows(
    'SELECT DISTINCT coalesce(season, year(date))::INTEGER AS season FROM plays ORDER BY season',
  );
  const teams = await store.rows(
    'SELECT DISTINCT fielding_team AS team FROM plays WHERE fielding_team IS NOT NULL ORDER BY team',
  );
  const [counted] = await store.rows('SELECT count(*) AS plays FROM plays');
  return {
    version: copy.version,
    name: basename(resolve(dir)),
    program_version: programVersion(),
    build_id: await readInfo(store, BUILD_ID),
    settings: await readSettings(store),
    seasons: seasons.map(({ season }) => Number(season)),
    teams: teams.map(({ team }) => String(team)),
    plays: Number(counted?.plays),
  };
}
