import { Hono } from 'hono';
import { answerFailure, answerMissing } from './failure-answer.ts';
import type { HostPolicy } from './host-policy.ts';
import { requestGuard } from './request-guard.ts';
import { addBookRoutes } from './routes/book-routes.ts';
import { addPlanRoutes } from './routes/plan-routes.ts';
import { addPlayRoutes } from './routes/play-routes.ts';
import { addTableRoutes } from './routes/table-routes.ts';
import { addTrustRoutes } from './routes/trust-routes.ts';
import { addViewRoutes } from './routes/view-routes.ts';
import { addWebRoutes } from './routes/web-routes.ts';
import { addWorkRoutes } from './routes/work-routes.ts';
import { securityHeaders } from './security-headers.ts';
import type { WebFile } from './web-files.ts';
import type { Workbench } from './workbench.ts';

export interface AppOptions {
  readonly workbench: Workbench;
  /** The built pages by address (web-files.ts). */
  readonly webFiles: ReadonlyMap<string, WebFile>;
  readonly isOurHost: HostPolicy;
}

/** The only addresses that take a POST: work that the page starts, and plans. */
const POSTABLE = /^\/api\/(work|plan)(\/|$)/;

/** The workbench as a function from request to answer; it does not listen (listen.ts). */
export function createApp({ workbench, webFiles, isOurHost }: AppOptions): Hono {
  const app = new Hono();
  app.use(securityHeaders);
  app.use(requestGuard(isOurHost, POSTABLE));
  addBookRoutes(app, workbench);
  addTableRoutes(app, workbench);
  addPlayRoutes(app, workbench);
  addViewRoutes(app, workbench);
  addTrustRoutes(app, workbench);
  addPlanRoutes(app, workbench);
  addWorkRoutes(app, workbench);
  app.all('/api/*', (context) => answerMissing(context, `There is nothing at ${context.req.path}.`));
  addWebRoutes(app, webFiles);
  app.onError((thrown, context) => answerFailure(context, thrown));
  return app;
}
