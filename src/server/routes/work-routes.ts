import type { Hono } from 'hono';
import type { WorkAnswer } from '../answers.ts';
import { answerMissing } from '../failure-answer.ts';
import { TASKS, type Task } from '../work/work-messages.ts';
import type { Workbench } from '../workbench.ts';

/** Starting long work, looking how far it is, and stopping it. */
export function addWorkRoutes(app: Hono, { work }: Workbench): void {
  app.get('/api/work', (context) => context.json<WorkAnswer>(work.answer));

  app.post('/api/work/:task', (context) => {
    const task = context.req.param('task');
    if (task === 'stop') work.stop();
    else if ((TASKS as readonly string[]).includes(task)) work.start(task as Task);
    else return answerMissing(context, `There is no work ${task}; there are ${TASKS.join(', ')}.`);
    return context.json<WorkAnswer>(work.answer);
  });
}
