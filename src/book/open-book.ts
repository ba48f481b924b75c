import { accessSync, constants, existsSync, readdirSync, realpathSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { ExpectedFailure } from '../expected-failure.ts';
import { asPermission, bookFailure, busy, notABook } from './book-failures.ts';
import { BOOK_FILE, createBookFile } from './create-book-file.ts';
import { openDuckDbStore } from './duckdb-store.ts';
import { readHolder, removeHolder, writeHolder } from './holder.ts';
import { INFO_TABLE, SCHEMA_VERSION } from './schema.ts';
import type { Store } from './store.ts';
import { isLockConflict } from './translate-store-error.ts';

/** An open book: one folder with `book.duckdb`, `models/` and, while somebody writes, `holder.json`. */
export interface Book {
  readonly dir: string;
  readonly store: Store;
  close(): Promise<void>;
}

export interface OpenBookOptions {
  /** `create` opens for writing and makes the book when there is none; `write` and `read` want it to be there. */
  readonly access: 'create' | 'read' | 'write';
  /** What the user called, told to a second command that finds the book busy. */
  readonly command: string;
  readonly now: () => Date;
  /** Threads and memory of the engine; see duckdb-store.ts. */
  readonly threads?: number;
  readonly memoryLimitMb?: number;
}

/** Folders and files that may lie about in a book without one: what a killed first command leaves behind. */
const OWN_LEFTOVERS = /^(book\.duckdb\.draft-.*|tmp|models|plans|holder\.json.*)$/;

/**
 * Opens of this process by book file. The system's lock on the file works between processes only, so a second opening
 * here has to be refused here.
 */
const openHere = new Map<string, { access: 'read' | 'write'; count: number; command: string; since: string }>();

/** What stands at `dir`, before anything is opened. */
function look(dir: string): 'book' | 'nothing' | 'empty' {
  if (!existsSync(dir)) return 'nothing';
  if (!statSync(dir).isDirectory()) throw notABook(dir, 'it is a file, and a book is a folder');
  const names = readdirSync(dir);
  if (names.includes(BOOK_FILE)) return 'book';
  if (names.every((name) => OWN_LEFTOVERS.test(name))) return 'empty';
  throw notABook(dir, `it has other files in it and no ${BOOK_FILE}`);
}

async function checkSchema(store: Store, dir: string): Promise<void> {
  let found: string | undefined;
  try {
    const rows = await store.rows(`SELECT value FROM ${INFO_TABLE} WHERE key = 'schema_version'`);
    found = rows[0]?.value as string | undefined;
  } catch (thrown) {
    if (thrown instanceof ExpectedFailure) throw thrown;
    throw notABook(dir, `its ${BOOK_FILE} is a database of something else`);
  }
  const version = Number(found);
  if (!Number.isInteger(version)) throw notABook(dir, `its ${BOOK_FILE} says no schema version`);
  if (version > SCHEMA_VERSION) {
    throw bookFailure(
      `The book ${dir} has schema ${version}; this program knows schemas up to ${SCHEMA_VERSION}.`,
      'Install the release of Leatherbook that wrote the book, or a newer one.',
      dir,
    );
  }
  if (version < SCHEMA_VERSION) {
    throw bookFailure(
      `The book ${dir} has the old schema ${version}; this program wants ${SCHEMA_VERSION}.`,
      'Make a new book from the source files with intake and build.',
      dir,
    );
  }
}

async function openFile(dir: string, file: string, access: 'read' | 'write', options: OpenBookOptions): Promise<Store> {
  const { threads = 2, memoryLimitMb = 1024 } = options;
  try {
    return await openDuckDbStore(file, { access, threads, memoryLimitMb, tempDirectory: join(dir, 'tmp') });
  } catch (thrown) {
    if (!isLockConflict(thrown)) throw thrown;
    // A writer has its lock a moment before its name is in holder.json.
    for (let tries = 0; tries < 5 && readHolder(dir) === null; tries++) await pause(40);
    throw busy(dir, readHolder(dir), thrown);
  }
}

/**
 * Opens a book.
 * @throws ExpectedFailure of kind `book`: there is none; the folder is something else; it is busy (one writer, or any
 * number of readers); it has another schema; it is damaged; the folder may not be read or written
 */
export async function openBook(dir: string, options: OpenBookOptions): Promise<Book> {
  const found = look(dir);
  if (found !== 'book') {
    if (options.access !== 'create') {
      const what = found === 'nothing' ? 'does not exist' : 'is empty';
      throw bookFailure(
        `There is no book: the folder ${dir} ${what}.`,
        `Make one with: leatherbook intake --book ${dir} --mapping FILE`,
        dir,
      );
    }
    await createBookFile(dir, options.now());
  }
  const access = options.access === 'read' ? 'read' : 'write';
  const file = realpathSync(join(dir, BOOK_FILE));
  const here = openHere.get(file);
  if (here !== undefined && (access === 'write' || here.access === 'write')) {
    throw busy(dir, { command: here.command, pid: process.pid, host: 'this computer', since: here.since });
  }
  if (access === 'write') {
    try {
      accessSync(dir, constants.W_OK);
    } catch (thrown) {
      throw asPermission(thrown, dir);
    }
  }
  // Entered before the first wait, so that two openings at once cannot both pass the check above.
  const since = options.now();
  if (here === undefined)
    openHere.set(file, { access, count: 1, command: options.command, since: since.toISOString() });
  else here.count += 1;
  const leave = () => {
    const entry = openHere.get(file)!;
    entry.count -= 1;
    if (entry.count === 0) openHere.delete(file);
  };
  let store: Store;
  try {
    store = await openFile(dir, file, access, options);
  } catch (thrown) {
    leave();
    throw thrown;
  }
  const close = async () => {
    if (access === 'write') removeHolder(dir);
    await store.close();
    leave();
  };
  try {
    if (access === 'write') {
      writeHolder(dir, options.command, since);
      // A killed process may have left what it could not keep in memory.
      rmSync(join(dir, 'tmp'), { recursive: true, force: true });
    }
    await checkSchema(store, dir);
  } catch (thrown) {
    await close();
    throw asPermission(thrown, dir);
  }
  let closing: Promise<void> | undefined;
  return { dir, store, close: () => (closing ??= close()) };
}
