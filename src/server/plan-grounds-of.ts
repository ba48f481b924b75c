import { readPlanGrounds } from '../commands/plan.ts';
import type { PlanGrounds } from '../plans/prepare-plans.ts';
import type { BookCopy } from './book-copy.ts';
import type { BookSource } from './book-source.ts';

/** What plans need of the book, read once for each version of the book. */
export function planGroundsOf(source: BookSource, copy: BookCopy): Promise<PlanGrounds> {
  return copy.cached('plan grounds', () => source.withBook(readPlanGrounds));
}
