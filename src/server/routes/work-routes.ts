import type { Hono } from 'hono';
import type { WorkAnswer } from '../answers.ts';
import { answerMissing } from '../failure-answer.ts';
import { TASKS, type Task } from '../work/work-messages.ts';
import type { Workbench } from '../workbench.ts';

/** What a page says beyond the name of the work; nothing but a club. */
function orderIn(text: string): { readonly defence?: string } {
  try {
    const order = JSON.parse(text) as { defence?: unknown };
    return typeof order.defence === 'string' ? { defence: order.defence } : {};
  } catch {
    return {};
  }
}

/** Starting long work, looking how far it is, and stopping it. */
export function addWorkRoutes(app: Hono, { work }: Workbench): void {
  app.get('/api/work', (context) => context.json<WorkAnswer>(work.answer));

  app.post('/api/work/:task', async (context) => {
    const task = context.req.param('task');
    if (task === 'stop') work.stop();
    else if ((TASKS as readonly string[]).includes(task)) {
      const { defence } = orderIn(await context.req.text());
      work.start(task as Task, defence);
    } else return answerMissing(context, `There is no work ${task}; there are ${TASKS.join(', ')}.`);
    return context.json<WorkAnswer>(work.answer);
  });
}
