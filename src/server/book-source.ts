import { statSync } from 'node:fs';
import { join } from 'node:path';
import { type Book, openBook } from '../book/open-book.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import type { BookCopy } from './book-copy.ts';
import { MemoryCopy } from './memory-copy.ts';

const NAME = 'leatherbook serve';

/**
 * A book that others may write to while its pages are open. The file is held only for as long as a table is copied into
 * memory; everything is answered from the copy, until the file changes.
 */
export interface BookSource {
  readonly dir: string;
  /** The copy of the book as it is now; of the one before while somebody writes. */
  current(): Promise<BookCopy>;
  /** Opens the book itself for a moment. Keep it short: a build cannot begin meanwhile. */
  withBook<T>(work: (book: Book) => Promise<T>): Promise<T>;
  /** Keeps everybody here from opening the book until `work` has settled. */
  keepClosed<T>(work: () => Promise<T>): Promise<T>;
  close(): Promise<void>;
}

/** Changes with every write to the file. */
function fileVersion(dir: string): string {
  try {
    const parts = ['book.duckdb', 'book.duckdb.wal'].map((name) => {
      const stat = statSync(join(dir, name), { throwIfNoEntry: false, bigint: true });
      return stat === undefined ? '-' : `${stat.ino}.${stat.mtimeNs}.${stat.size}`;
    });
    return parts.join('_');
  } catch {
    return 'unreadable';
  }
}

export function createBookSource(dir: string, effects: { readonly now: () => Date }): BookSource {
  let latest: MemoryCopy | null = null;
  let renewing: Promise<MemoryCopy> | null = null;
  let gate: Promise<unknown> = Promise.resolve();
  let openCount = 0;
  let whenClosed: (() => void) | null = null;

  const withBook = async <T>(work: (book: Book) => Promise<T>): Promise<T> => {
    await gate;
    openCount += 1;
    try {
      const book = await openBook(dir, { access: 'read', command: NAME, now: effects.now });
      try {
        return await work(book);
      } finally {
        await book.close();
      }
    } finally {
      openCount -= 1;
      if (openCount === 0) whenClosed?.();
    }
  };

  const renew = async (version: string): Promise<MemoryCopy> => {
    const copy = await MemoryCopy.of(version, withBook);
    const old = latest;
    latest = copy;
    // Answers under way still read from the old copy.
    if (old !== null) setTimeout(() => void old.close(), 10_000).unref();
    return copy;
  };

  return {
    dir,
    withBook,
    async current() {
      const version = fileVersion(dir);
      if (latest?.version === version) return latest;
      try {
        renewing ??= renew(version).finally(() => {
          renewing = null;
        });
        return await renewing;
      } catch (thrown) {
        if (latest === null || !(thrown instanceof ExpectedFailure)) throw thrown;
        const kept = latest;
        return {
          version: kept.version,
          behind: thrown,
          tables: (...names) => kept.tables(...names),
          cached: (key, make) => kept.cached(key, make),
        };
      }
    },
    async keepClosed(work) {
      const before = gate;
      let open = () => {};
      gate = new Promise<void>((resolve) => {
        open = resolve;
      });
      await before;
      try {
        if (openCount > 0) {
          await new Promise<void>((resolve) => {
            whenClosed = resolve;
          });
        }
        return await work();
      } finally {
        whenClosed = null;
        open();
      }
    },
    async close() {
      await latest?.close();
    },
  };
}
