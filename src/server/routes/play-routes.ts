import type { Hono } from 'hono';
import type { BallClass } from '../../commands/explain/class-teller.ts';
import { STORY_TABLES } from '../../commands/explain/stored-results.ts';
import { readSetModels } from '../../commands/read-set-models.ts';
import type { SetModelsFile } from '../../ledger/set-models.ts';
import type { PlayAnswer } from '../answers.ts';
import type { BookCopy } from '../book-copy.ts';
import { answerMissing } from '../failure-answer.ts';
import { playTellerOf } from '../play-teller-of.ts';
import type { Workbench } from '../workbench.ts';

/** One play told and taken out of its book, and the models to try it with. */
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
}

function noModels(ballClass: BallClass): string {
  return `This book was built without any ${ballClass === 'ground' ? 'grounder' : 'ball in the air'}.`;
}
