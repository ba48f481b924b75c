import type { Context, Hono } from 'hono';
import { CLUB_PLACEMENT_TABLES, clubPlacement } from '../../commands/views/club-placement.ts';
import { DEFENDER_PLAYS_TABLES, defenderPlays } from '../../commands/views/defender-plays.ts';
import { LATEST_PLAYS_TABLES, latestPlays } from '../../commands/views/latest-plays.ts';
import { ExpectedFailure } from '../../expected-failure.ts';
import type { LatestAnswer, PlacementAnswer, ViewAnswer } from '../answers.ts';
import { columnsAsJson } from '../column-json.ts';
import { playTellerOf } from '../play-teller-of.ts';
import type { Workbench } from '../workbench.ts';

/** What single pages ask for beyond the tables. */
export function addViewRoutes(app: Hono, { source }: Workbench): void {
  app.get('/api/latest', async (context) => {
    const copy = await source.current();
    const season = numberIn(context, 'season', 1, 9999);
    const store = await copy.tables(...LATEST_PLAYS_TABLES);
    const { date, playCount, clubs, entries } = await latestPlays(store, season);
    return context.json<LatestAnswer>({
      version: copy.version,
      date,
      plays: playCount,
      clubs: columnsAsJson(clubs),
      entries: columnsAsJson(entries),
    });
  });

  app.get('/api/defender/:id/plays', async (context) => {
    const copy = await source.current();
    const store = await copy.tables(...DEFENDER_PLAYS_TABLES);
    const columns = columnsAsJson(await defenderPlays(store, defenderIn(context)));
    return context.json<ViewAnswer>({ version: copy.version, columns });
  });

  app.get('/api/defender/:id/placement', async (context) => {
    const copy = await source.current();
    const { fielderId, position, season } = defenderIn(context);
    const teller = await playTellerOf(source, copy);
    return context.json<PlacementAnswer>({ placement: teller.placementOf(fielderId, position, season) });
  });

  app.get('/api/club/:team/placement', async (context) => {
    const copy = await source.current();
    const store = await copy.tables(...CLUB_PLACEMENT_TABLES);
    const rows = await clubPlacement(store, context.req.param('team'), numberIn(context, 'season', 1, 9999));
    return context.json<ViewAnswer>({ version: copy.version, columns: columnsAsJson(rows) });
  });
}

function defenderIn(context: Context) {
  return {
    fielderId: context.req.param('id') ?? '',
    season: numberIn(context, 'season', 1, 9999),
    position: numberIn(context, 'position', 1, 9),
  };
}

function numberIn(context: Context, word: string, low: number, high: number): number {
  const value = Number(context.req.query(word) ?? Number.NaN);
  if (Number.isInteger(value) && value >= low && value <= high) return value;
  const given = context.req.query(word) ?? 'nothing';
  throw new ExpectedFailure(
    'usage',
    `${word} wants a whole number from ${low} to ${high} and got ${given}.`,
    `Correct ${word}.`,
  );
}
