import type { Context, Hono } from 'hono';
import type { BallClass } from '../../commands/explain/class-teller.ts';
import { STORY_TABLES } from '../../commands/explain/stored-results.ts';
import { FIND_PLAYS_TABLES, findPlays, type PlayOrder } from '../../commands/find-plays.ts';
import { readSetModels } from '../../commands/read-set-models.ts';
import type { SetModelsFile } from '../../ledger/set-models.ts';
import type { FoundPlaysAnswer, PlayAnswer } from '../answers.ts';
import type { BookCopy } from '../book-copy.ts';
import { answerMissing } from '../failure-answer.ts';
import { playTellerOf } from '../play-teller-of.ts';
import type { Workbench } from '../workbench.ts';

const PLAYS_A_PAGE = 50;

/** One play told and taken out of its book, the models to try it with, and the list of plays. */
export function addPlayRoutes(app: Hono, { source }: Workbench): void {
  const tellerOf = (copy: BookCopy) => playTellerOf(source, copy);

  app.get('/api/play/:id', async (context) => {
    const copy = await source.current();
    const store = await copy.tables(...STORY_TABLES);
    const teller = await tellerOf(copy);
    const story = await teller.tell(store, context.req.param('id'));
    return context.json<PlayAnswer>({ version: copy.version, ...story });
  });

  app.get('/api/models/:class', async (context) => {
    const ballClass = context.req.param('class');
    if (ballClass !== 'ground' && ballClass !== 'air')
      return answerMissing(context, `There is no class of balls "${ballClass}"; the classes are ground and air.`);
    const copy = await source.current();
    const models = await copy.cached('set models', () => source.withBook(readSetModels));
    const file = models[ballClass];
    if (file === null) return answerMissing(context, noModels(ballClass));
    return context.json<SetModelsFile>(file);
  });

  app.get('/api/plays', async (context) => {
    const copy = await source.current();
    const found = await findPlays(await copy.tables(...FIND_PLAYS_TABLES), questionOf(context));
    return context.json<FoundPlaysAnswer>({ version: copy.version, ...found });
  });
}

function noModels(ballClass: BallClass): string {
  return `This book was built without any ${ballClass === 'ground' ? 'grounder' : 'ball in the air'}.`;
}

function questionOf(context: Context) {
  const word = (name: string) => context.req.query(name) || undefined;
  const number = (name: string) => (word(name) === undefined ? undefined : Number(word(name)));
  const out = word('out');
  return {
    season: number('season'),
    team: word('team'),
    defender: word('defender'),
    batter: word('batter'),
    ballKind: word('kind'),
    grade: word('grade'),
    entry: word('entry'),
    out: out === undefined ? undefined : out === 'yes',
    order: (word('order') ?? 'swing') as PlayOrder,
    from: number('from') ?? 0,
    count: number('count') ?? PLAYS_A_PAGE,
  };
}
