import type { Hono } from 'hono';
import { answerMissing } from '../failure-answer.ts';
import type { WebFile } from '../web-files.ts';

/** First words of the addresses of pages; each is the one built page, which looks at its address itself. */
const PAGES = /^\/($|(season|defenders|teams|plays|plan|trust)(\/|$))/;
/** The build gives these names that change with their contents. */
const HASHED = /^\/assets\//;

export function addWebRoutes(app: Hono, files: ReadonlyMap<string, WebFile>): void {
  app.get('*', (context) => {
    const { path } = context.req;
    const file = files.get(path);
    if (file !== undefined && path !== '/index.html') {
      context.header('Content-Type', file.type);
      if (HASHED.test(path)) context.header('Cache-Control', 'public, max-age=31536000, immutable');
      return context.body(file.bytes);
    }
    const page = files.get('/index.html');
    if (page === undefined) return answerMissing(context, 'The pages have not been built; run: npm run build');
    if (HASHED.test(path)) return answerMissing(context, 'There is no such file; load the page again.');
    // An address that is no page gets the page too, which says so.
    context.header('Content-Type', page.type);
    return context.body(page.bytes, PAGES.test(path) ? 200 : 404);
  });
}
