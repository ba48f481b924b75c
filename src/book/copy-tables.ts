import { join } from 'node:path';
import { busy } from './book-failures.ts';
import { BOOK_FILE } from './create-book-file.ts';
import { readHolder } from './holder.ts';
import { quoteName, quoteText } from './sql-text.ts';
import type { Store } from './store.ts';
import { isLockConflict } from './translate-store-error.ts';

/**
 * Copies tables of the book in `dir` into `memory`, in place of those of the same name; the file is held only meanwhile.
 * The caller has seen that it is a book (openBook), and has it not open: closing one handle would free the other's lock.
 * @throws ExpectedFailure of kind `book` when somebody writes to it
 */
export async function copyTables(memory: Store, dir: string, names: readonly string[]): Promise<void> {
  try {
    await memory.run(`ATTACH ${quoteText(join(dir, BOOK_FILE))} AS book_file (READ_ONLY)`);
  } catch (thrown) {
    throw isLockConflict(thrown) ? busy(dir, readHolder(dir), thrown) : thrown;
  }
  try {
    for (const name of names) {
      const table = quoteName(name);
      await memory.run(`CREATE OR REPLACE TABLE ${table} AS SELECT * FROM book_file.${table}`);
    }
  } finally {
    await memory.run('DETACH book_file');
  }
}
