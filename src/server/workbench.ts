import type { BookSource } from './book-source.ts';

/** What the routes work with. */
export interface Workbench {
  readonly source: BookSource;
  readonly now: () => Date;
}
