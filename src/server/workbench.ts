import type { BookSource } from './book-source.ts';
import type { Work } from './work/work.ts';

/** What the routes work with. */
export interface Workbench {
  readonly source: BookSource;
  readonly work: Work;
  readonly now: () => Date;
}
