import type { MiddlewareHandler } from 'hono';
import { answerRefused } from './failure-answer.ts';
import type { HostPolicy } from './host-policy.ts';

/** Sent with every POST by the workbench's own pages; a form of another site cannot send it. */
export const OWN_REQUEST_HEADER = 'x-leatherbook';

/**
 * Lets through what the workbench's own pages ask for: a Host of ours; GET and HEAD; POST only below `postable`, from a
 * page of this very origin, with a header that a browser sends across origins only after asking.
 */
export function requestGuard(isOurHost: HostPolicy, postable: RegExp): MiddlewareHandler {
  return async (context, next) => {
    const host = context.req.header('host');
    if (!isOurHost(host)) return answerRefused(context, 'This server does not go by that name.', 403);
    const { method } = context.req;
    if (method === 'GET' || method === 'HEAD') return await next();
    if (method !== 'POST' || !postable.test(context.req.path)) {
      context.header('Allow', 'GET, HEAD');
      return answerRefused(context, `${method} is not allowed here.`, 405);
    }
    const isOwnPage = context.req.header('origin') === `http://${host}`;
    if (!isOwnPage || context.req.header(OWN_REQUEST_HEADER) === undefined) {
      return answerRefused(context, 'Only a page of this workbench may start work.', 403);
    }
    return await next();
  };
}
