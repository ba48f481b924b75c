import type { Store } from '../book/store.ts';
import type { ExpectedFailure } from '../expected-failure.ts';

/** One version of a book, held in memory. */
export interface BookCopy {
  /** Another text whenever the book's file is another. */
  readonly version: string;
  /** Why the copy may be older than the book: somebody is writing to it. Null when it is up to date. */
  readonly behind: ExpectedFailure | null;
  /** A database in memory with these tables of the book in it. */
  tables(...names: string[]): Promise<Store>;
  /** What `make` answered the first time it was asked for under this key; made anew when the book changes. */
  cached<T>(key: string, make: () => Promise<T>): Promise<T>;
}
