import type { Context, Hono } from 'hono';
import { cardPages } from '../../commands/cards/card-pages.ts';
import { PAPERS } from '../../commands/cards/papers.ts';
import { BATTERS_TABLES, batters } from '../../commands/views/batters.ts';
import { packPlanCase } from '../../plans/plan-case.ts';
import { solvePlan } from '../../plans/solve-plan.ts';
import type { PlanAnswer, PlanCaseAnswer, ViewAnswer } from '../answers.ts';
import { columnsAsJson } from '../column-json.ts';
import { namesOf } from '../names-of.ts';
import { planGroundsOf } from '../plan-grounds-of.ts';
import { planQuestionOf } from '../plan-question.ts';
import { readCard } from '../read-card.ts';
import type { Workbench } from '../workbench.ts';

/** Whom to plan against, what starts are priced with, a plan, and its pocket card. */
export function addPlanRoutes(app: Hono, { source, now }: Workbench): void {
  const askedIn = async (context: Context) => {
    const copy = await source.current();
    const question = planQuestionOf((name) => context.req.query(name));
    return { copy, question, grounds: await planGroundsOf(source, copy) };
  };

  app.get('/api/batters', async (context) => {
    const copy = await source.current();
    const store = await copy.tables(...BATTERS_TABLES);
    const columns = await copy.cached('batters', async () => columnsAsJson(await batters(store)));
    return context.json<ViewAnswer>({ version: copy.version, columns });
  });

  app.get('/api/plan', async (context) => {
    const { copy, question, grounds } = await askedIn(context);
    return context.json<PlanCaseAnswer>({ version: copy.version, planCase: packPlanCase(grounds, question) });
  });

  app.post('/api/plan', async (context) => {
    const { copy, question, grounds } = await askedIn(context);
    return context.json<PlanAnswer>({ version: copy.version, plan: solvePlan(grounds, question) });
  });

  app.post('/api/plan/card', async (context) => {
    const card = readCard(await context.req.text());
    const names = new Map(Object.entries(await namesOf(await source.current())));
    const paper = PAPERS.find((each) => each === context.req.query('paper')) ?? PAPERS[0];
    const pages = await cardPages([card], { paper, names, season: now().getFullYear(), now });
    return context.body(new Uint8Array(pages), 200, { 'Content-Type': 'application/pdf' });
  });
}
