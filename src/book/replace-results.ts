import { closeSync, fsyncSync, mkdirSync, openSync, readdirSync, readFileSync, rmSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { ExpectedFailure } from '../expected-failure.ts';
import { asPermission } from './book-failures.ts';
import { BUILD_ID, readInfo, writeInfo } from './book-info.ts';
import type { Book } from './open-book.ts';
import { OUTGOING_TABLES, type OutgoingTableName, recreateTableSql, SETTINGS_TABLE } from './schema.ts';
import type { ColumnTable } from './store.ts';

export interface BuildResults {
  /** By table name (schema.ts, those that `build` writes). A table left out is empty afterwards. */
  readonly tables: Readonly<Record<string, ColumnTable>>;
  /** Bytes by file name. */
  readonly models: Readonly<Record<string, Uint8Array>>;
  readonly settings: Readonly<Record<string, string>>;
}

const BUILD_TABLES = (Object.keys(OUTGOING_TABLES) as OutgoingTableName[]).filter(
  (name) => OUTGOING_TABLES[name].writtenBy === 'build',
);
const PLAIN_FILE_NAME = /^[A-Za-z0-9][A-Za-z0-9._-]*$/;

/** Writes to the disk itself, not only to the system's memory. */
function writeDurably(path: string, bytes: Uint8Array): void {
  const file = openSync(path, 'w');
  try {
    for (let written = 0; written < bytes.length; ) written += writeSync(file, bytes, written);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** A file's name is safe on the disk only when its folder is. */
function syncFolder(path: string): void {
  const folder = openSync(path, 'r');
  try {
    fsyncSync(folder);
  } finally {
    closeSync(folder);
  }
}

function nextBuildId(last: string | null): string {
  return String(Number(last ?? '0') + 1).padStart(6, '0');
}

function writeModels(modelsDir: string, buildId: string, models: BuildResults['models']): void {
  const dir = join(modelsDir, buildId);
  // There when a build was killed before its transaction; nothing points at it.
  rmSync(dir, { recursive: true, force: true });
  mkdirSync(dir, { recursive: true });
  for (const [name, bytes] of Object.entries(models)) writeDurably(join(dir, name), bytes);
  syncFolder(dir);
  syncFolder(modelsDir);
}

function checkNames({ tables, models }: BuildResults): void {
  for (const name of Object.keys(tables)) {
    if (!BUILD_TABLES.includes(name as OutgoingTableName))
      throw new Error(`${name} is not a table that a build writes.`);
  }
  for (const name of Object.keys(models)) {
    if (!PLAIN_FILE_NAME.test(name)) throw new Error(`${name} is not a plain file name.`);
  }
}

/**
 * Puts the results of a build in the place of the last ones, all or nothing. The models are on the disk before the
 * transaction that makes them the book's; a process killed before its end leaves the old results with the old models,
 * one killed after it the new ones with the new. Folders that nothing points at go at the end, or with the next build.
 * @throws ExpectedFailure of kind `book`: disk full, no permission
 */
export async function replaceResults(book: Book, results: BuildResults): Promise<void> {
  checkNames(results);
  const { store } = book;
  const modelsDir = join(book.dir, 'models');
  const buildId = nextBuildId(await readInfo(store, BUILD_ID));
  try {
    writeModels(modelsDir, buildId, results.models);
  } catch (thrown) {
    throw asPermission(thrown, book.dir);
  }
  await store.transaction(async () => {
    for (const table of BUILD_TABLES) {
      await store.run(recreateTableSql(table));
      const data = results.tables[table];
      if (data !== undefined) await store.append(table, data);
    }
    const keys = Object.keys(results.settings);
    await store.run(`DELETE FROM ${SETTINGS_TABLE}`);
    await store.append(SETTINGS_TABLE, {
      rowCount: keys.length,
      columns: [
        { name: 'key', type: 'text', values: keys },
        { name: 'value', type: 'text', values: keys.map((key) => results.settings[key]!) },
      ],
    });
    await writeInfo(store, BUILD_ID, buildId);
  });
  for (const name of readdirSync(modelsDir)) {
    if (name !== buildId) rmSync(join(modelsDir, name), { recursive: true, force: true });
  }
}

/**
 * A model file of the build whose results are in the book.
 * @throws ExpectedFailure of kind `book`: nothing built yet, or the file is gone
 */
export async function readModelFile(book: Book, name: string): Promise<Uint8Array> {
  const buildId = await readInfo(book.store, BUILD_ID);
  const remedy = `Run: leatherbook build --book ${book.dir}`;
  if (buildId === null)
    throw new ExpectedFailure('book', `The book ${book.dir} has not been built.`, remedy, { file: book.dir });
  const path = join(book.dir, 'models', buildId, name);
  try {
    return readFileSync(path);
  } catch (thrown) {
    if ((thrown as NodeJS.ErrnoException).code !== 'ENOENT') throw asPermission(thrown, book.dir);
    throw new ExpectedFailure('book', `The model file ${path} is missing.`, remedy, { file: path }, { cause: thrown });
  }
}
