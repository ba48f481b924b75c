import { accessSync, constants, existsSync, linkSync, mkdirSync, rmSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { asPermission } from './book-failures.ts';
import { openDuckDbStore } from './duckdb-store.ts';
import { programVersion } from './program-version.ts';
import { createTablesSql, INFO_TABLE, SCHEMA_VERSION } from './schema.ts';
import { quoteText } from './sql-text.ts';

export const BOOK_FILE = 'book.duckdb';
const DRAFT_PREFIX = 'book.duckdb.draft-';

function nearestFolder(path: string): string {
  let folder = resolve(path);
  while (!existsSync(folder)) folder = dirname(folder);
  return folder;
}

/** Makes a new book beside its final name and links it there when it is whole; a kill leaves only a draft. */
export async function createBookFile(dir: string, now: Date): Promise<void> {
  try {
    // Asked first, because making folders below one that cannot be written fails with "no such file".
    accessSync(nearestFolder(dir), constants.W_OK);
    mkdirSync(join(dir, 'models'), { recursive: true });
  } catch (thrown) {
    throw asPermission(thrown, dir);
  }
  const draft = join(dir, `${DRAFT_PREFIX}${process.pid}`);
  rmSync(draft, { force: true });
  const store = await openDuckDbStore(draft, { tempDirectory: join(dir, 'tmp') });
  try {
    await store.transaction(async () => {
      await store.run(createTablesSql());
      await store.run(
        `INSERT INTO ${INFO_TABLE} VALUES ('schema_version', '${SCHEMA_VERSION}'),
         ('created', ${quoteText(now.toISOString())}), ('program_version', ${quoteText(programVersion())})`,
      );
    });
  } finally {
    await store.close();
  }
  try {
    linkSync(draft, join(dir, BOOK_FILE));
  } catch (thrown) {
    // Somebody else was faster: then theirs is the book.
    if ((thrown as NodeJS.ErrnoException).code !== 'EEXIST') throw asPermission(thrown, dir);
  } finally {
    rmSync(draft, { force: true });
  }
}
