import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Book, openBook } from '../../src/book/open-book.ts';
import { type PersonRow, writePlayTable } from '../../src/book/write-play-table.ts';
import type { PlayTable } from '../../src/chances/play-table.ts';

/** A fixed clock, so that books made in tests are the same every time. */
export const TEST_NOW = () => new Date('2031-04-01T12:00:00Z');

export interface TemporaryFolder {
  readonly path: string;
  remove(): void;
}

export function temporaryFolder(): TemporaryFolder {
  const path = mkdtempSync(join(tmpdir(), 'leatherbook-test-'));
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
}

export interface TemporaryBook {
  readonly book: Book;
  readonly dir: string;
  /** Closes the book, if it is still open, and removes its folder. */
  remove(): Promise<void>;
}

/** A new book in a temporary folder, open for writing, filled with `plays` if given. */
export async function temporaryBook(plays?: PlayTable, people: readonly PersonRow[] = []): Promise<TemporaryBook> {
  const folder = temporaryFolder();
  const dir = join(folder.path, 'book');
  const book = await openBook(dir, { access: 'create', command: 'leatherbook test', now: TEST_NOW });
  if (plays !== undefined) await writePlayTable(book, plays, people);
  return {
    book,
    dir,
    async remove() {
      await book.close();
      folder.remove();
    },
  };
}
