import type { Context } from 'hono';
import type { ContentfulStatusCode } from 'hono/utils/http-status';
import { ExpectedFailure, type FailureKind } from '../expected-failure.ts';
import type { FailureAnswer } from './answers.ts';

const STATUS: Readonly<Record<FailureKind, ContentfulStatusCode>> = { usage: 400, data: 422, book: 503 };

/** A failure as JSON: 400 a wrong question, 422 unusable data, 503 a book that is missing, busy or damaged, 500 a bug. */
export function answerFailure(context: Context, thrown: unknown): Response {
  if (thrown instanceof ExpectedFailure) {
    const { kind, message, remedy, place } = thrown;
    return context.json<FailureAnswer>({ error: { kind, message, remedy, place } }, STATUS[kind]);
  }
  const message = thrown instanceof Error ? thrown.message : String(thrown);
  const remedy = 'This is a bug of Leatherbook and not a fault of yours: please report it with this sentence.';
  return context.json<FailureAnswer>({ error: { kind: 'bug', message, remedy } }, 500);
}

/** There is nothing by that name. */
export function answerMissing(context: Context, message: string): Response {
  const remedy = 'Check the address, or go back and choose from the list.';
  return context.json<FailureAnswer>({ error: { kind: 'missing', message, remedy } }, 404);
}

/** The request is not one that a page of the workbench makes. */
export function answerRefused(context: Context, message: string, status: 403 | 405): Response {
  const remedy = 'Open the workbench at the address that `leatherbook serve` printed.';
  return context.json<FailureAnswer>({ error: { kind: 'refused', message, remedy } }, status);
}
