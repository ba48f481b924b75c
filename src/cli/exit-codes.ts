import type { FailureKind } from '../expected-failure.ts';

export const DONE = 0;
export const BUG = 1;

/** Exit codes of failures that the user can do something about. */
export const FAILURE_CODES: Readonly<Record<FailureKind, number>> = { usage: 2, data: 3, book: 4 };
