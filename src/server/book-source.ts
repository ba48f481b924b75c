import { statSync } from 'node:fs';
import { join } from 'node:path';
import { busy } from '../book/book-failures.ts';
import { readHolder } from '../book/holder.ts';
import { type Book, openBook } from '../book/open-book.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import type { BookCopy } from './book-copy.ts';
import { MemoryCopy } from './memory-copy.ts';

const NAME = 'leatherbook serve';
/** Copied one after another while the first page is being read. Starts, ten times as many rows as plays, wait to be asked for. */
const LARGE_TABLES = ['plays', 'marks', 'entries', 'alignments'] as const;
/** Answers under way still read from a copy that has been replaced. */
const KEEP_OLD_MS = 30_000;

/**
 * A book that others may write to while its pages are open. The file is held only for as long as a table is copied into
 * memory; everything is answered from the copy, until the file changes.
 */
export interface BookSource {
  readonly dir: string;
  /**
   * The copy of the book as it is now; of the one before while somebody writes.
   * @throws ExpectedFailure of kind `book`: what openBook says, when there is no copy from before either
   */
  current(): Promise<BookCopy>;
  /** Opens the book itself for a moment. Keep it short: a build cannot begin, and no table be copied, meanwhile. */
  withBook<T>(work: (book: Book) => Promise<T>): Promise<T>;
  /** Nobody here opens the book until `work` has settled. */
  keepClosed<T>(work: () => Promise<T>): Promise<T>;
  close(): Promise<void>;
}

/** Changes with every write to the file. */
function fileVersion(dir: string): string {
  try {
    const parts = ['book.duckdb', 'book.duckdb.wal'].map((name) => {
      const stat = statSync(join(dir, name), { throwIfNoEntry: false, bigint: true });
      return stat === undefined ? '' : `${stat.ino}.${stat.mtimeNs}.${stat.size}`;
    });
    return parts.join('_');
  } catch {
    return 'unreadable';
  }
}

export function createBookSource(dir: string, effects: { readonly now: () => Date }): BookSource {
  let latest: MemoryCopy | null = null;
  let renewing: Promise<MemoryCopy> | null = null;
  /** Whoever opens the file waits for the one before: two handles of one process would share one lock. */
  let last: Promise<unknown> = Promise.resolve();

  const keepClosed = <T>(work: () => Promise<T>): Promise<T> => {
    const turn = last.then(work);
    last = turn.catch(() => undefined);
    return turn;
  };
  const openAndWork = async <T>(work: (book: Book) => Promise<T>): Promise<T> => {
    const book = await openBook(dir, { access: 'read', command: NAME, now: effects.now });
    try {
      return await work(book);
    } finally {
      await book.close();
    }
  };

  const renew = async (): Promise<MemoryCopy> => {
    const copy = await keepClosed(async () => {
      const version = fileVersion(dir);
      // Says what is wrong with the book, if anything is.
      await openAndWork(async () => undefined);
      return await MemoryCopy.of(dir, version, keepClosed);
    });
    const old = latest;
    latest = copy;
    void copyLargeTables(copy);
    if (old !== null) setTimeout(() => void old.close(), KEEP_OLD_MS).unref();
    return copy;
  };

  return {
    dir,
    keepClosed,
    withBook: (work) => keepClosed(() => openAndWork(work)),
    async current() {
      if (latest?.version === fileVersion(dir)) {
        const holder = readHolder(dir);
        return holder === null ? latest : olderCopy(latest, busy(dir, holder));
      }
      try {
        renewing ??= renew().finally(() => {
          renewing = null;
        });
        return await renewing;
      } catch (thrown) {
        if (latest === null || !(thrown instanceof ExpectedFailure)) throw thrown;
        return olderCopy(latest, thrown);
      }
    },
    async close() {
      await latest?.close();
    },
  };
}

/** So that pages can be read while somebody writes. Whoever asks for one that failed is told why. */
async function copyLargeTables(copy: MemoryCopy): Promise<void> {
  for (const name of LARGE_TABLES) await copy.tables(name).catch(() => undefined);
}

function olderCopy(copy: MemoryCopy, behind: ExpectedFailure): BookCopy {
  return {
    version: copy.version,
    behind,
    tables: (...names) => copy.tables(...names),
    cached: (key, make) => copy.cached(key, make),
  };
}
