import { chmodSync, mkdirSync, readdirSync, readFileSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openDuckDbStore } from '../../src/book/duckdb-store.ts';
import { openBook } from '../../src/book/open-book.ts';
import { replaceResults } from '../../src/book/replace-results.ts';
import { INCOMING_TABLES, OUTGOING_TABLES, SCHEMA_VERSION } from '../../src/book/schema.ts';
import { HAS_PRIVATE_MOUNTS, startBookChild } from '../helpers/child-process.ts';
import { TEST_NOW, type TemporaryFolder, temporaryFolder } from '../helpers/temporary-book.ts';
import { versionedResults, versionsIn } from '../helpers/versioned-results.ts';

let folder: TemporaryFolder;
let dir: string;
beforeEach(() => {
  folder = temporaryFolder();
  dir = join(folder.path, 'book');
});
afterEach(() => folder.remove());

const openWith = (access: 'create' | 'read' | 'write', command = 'leatherbook test') =>
  openBook(dir, { access, command, now: TEST_NOW });
const makeBook = async () => (await openWith('create')).close();
const refusal = (message: RegExp, remedy: RegExp) => ({
  name: 'ExpectedFailure',
  kind: 'book',
  message: expect.stringMatching(message),
  remedy: expect.stringMatching(remedy),
});

describe('openBook', () => {
  it('makes a book with every table of the contract and says when and by what it was made', async () => {
    const book = await openWith('create');
    const described = await book.store.rows(
      `SELECT table_name, string_agg(column_name, ' ' ORDER BY column_index) AS columns FROM duckdb_columns() GROUP BY table_name`,
    );
    const found = Object.fromEntries(described.map(({ table_name, columns }) => [table_name, columns]));
    for (const [name, { columns }] of [...Object.entries(INCOMING_TABLES), ...Object.entries(OUTGOING_TABLES)]) {
      expect(found[name]).toBe(columns.map((column) => column.name).join(' '));
    }
    const info = await book.store.rows('SELECT * FROM book_info');
    expect(Object.fromEntries(info.map(({ key, value }) => [key, value]))).toEqual({
      schema_version: String(SCHEMA_VERSION),
      created: '2031-04-01T12:00:00.000Z',
      program_version: JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')).version,
    });
    await book.close();
    expect(readdirSync(dir).sort()).toEqual(['book.duckdb', 'models']);
  });

  it('opens an existing book again with create, and keeps what is in it', async () => {
    const book = await openWith('create');
    await book.store.run(`INSERT INTO people (person_id) VALUES ('p1')`);
    await book.close();
    const again = await openWith('create');
    expect(await again.store.rows('SELECT person_id FROM people')).toEqual([{ person_id: 'p1' }]);
    await again.close();
  });

  it('makes a book over what a killed first command left', async () => {
    mkdirSync(join(dir, 'models'), { recursive: true });
    writeFileSync(join(dir, 'book.duckdb.draft-1'), 'half');
    await makeBook();
    await (await openWith('read')).close();
  });

  it.each(['read', 'write'] as const)('says that there is no book (%s)', async (access) => {
    await expect(openWith(access)).rejects.toMatchObject(
      refusal(/There is no book.*does not exist/, /leatherbook intake --book/),
    );
    mkdirSync(dir);
    await expect(openWith(access)).rejects.toMatchObject(
      refusal(/There is no book.*is empty/, /leatherbook intake --book/),
    );
  });

  it.each(['create', 'read', 'write'] as const)('refuses a folder that is something else (%s)', async (access) => {
    mkdirSync(dir);
    writeFileSync(join(dir, 'letters.txt'), 'dear');
    await expect(openWith(access)).rejects.toMatchObject(
      refusal(/is not a book: it has other files/, /folder of a book/),
    );
    expect(readdirSync(dir)).toEqual(['letters.txt']);
  });

  it('refuses a file', async () => {
    writeFileSync(dir, 'dear');
    await expect(openWith('create')).rejects.toMatchObject(refusal(/is not a book: it is a file/, /folder of a book/));
  });

  it('refuses a database of something else, and does not touch it', async () => {
    mkdirSync(dir);
    const store = await openDuckDbStore(join(dir, 'book.duckdb'));
    await store.run('CREATE TABLE shop (x INTEGER)');
    await store.close();
    await expect(openWith('write')).rejects.toMatchObject(
      refusal(/is not a book: .*something else/, /folder of a book/),
    );
    expect(readdirSync(dir)).toEqual(['book.duckdb']);
  });

  it.each([
    [SCHEMA_VERSION + 1, /has schema \d+; this program knows schemas up to \d+/, /Install/],
    [SCHEMA_VERSION - 1, /has the old schema/, /Make a new book/],
  ])('refuses schema %i', async (version, message, remedy) => {
    const book = await openWith('create');
    await book.store.run(`UPDATE book_info SET value = '${version}' WHERE key = 'schema_version'`);
    await book.close();
    for (const access of ['read', 'write', 'create'] as const) {
      await expect(openWith(access)).rejects.toMatchObject(refusal(message, remedy));
    }
  });

  describe('damaged', () => {
    beforeEach(async () => {
      const book = await openWith('create');
      await replaceResults(book, versionedResults(1, 50_000));
      await book.close();
    });
    it('tells a file that is no database', async () => {
      writeFileSync(join(dir, 'book.duckdb'), 'dear'.repeat(5000));
      await expect(openWith('read')).rejects.toMatchObject(refusal(/is damaged/, /Restore.*copy/));
    });
    it('tells an empty file', async () => {
      truncateSync(join(dir, 'book.duckdb'), 0);
      await expect(openWith('read')).rejects.toMatchObject(refusal(/is damaged/, /Restore.*copy/));
    });
    it('tells a file that was cut off', async () => {
      truncateSync(join(dir, 'book.duckdb'), statSync(join(dir, 'book.duckdb')).size / 2);
      await expect(openWith('read').then((book) => versionsIn(book))).rejects.toMatchObject(
        refusal(/is damaged/, /Restore.*copy/),
      );
    });
    it('tells changed bytes', async () => {
      const bytes = readFileSync(join(dir, 'book.duckdb'));
      for (let at = 5000; at < bytes.length; at += 4000) bytes[at] = bytes[at]! ^ 0x55;
      writeFileSync(join(dir, 'book.duckdb'), bytes);
      await expect(openWith('read').then((book) => versionsIn(book))).rejects.toMatchObject(
        refusal(/is damaged/, /Restore.*copy/),
      );
    });
  });

  describe('two at once', () => {
    it('lets several readers of one process read, and the last one close the file', async () => {
      await makeBook();
      const [one, two] = [await openWith('read'), await openWith('read')];
      await one.close();
      expect(await two.store.rows('SELECT count(*) AS n FROM plays')).toEqual([{ n: 0 }]);
      await expect(openWith('write')).rejects.toMatchObject(refusal(/is busy/, /Wait/));
      await two.close();
      await (await openWith('write')).close();
    });

    it('refuses a second writer and a reader in the same process', async () => {
      const writer = await openWith('create', 'leatherbook build');
      for (const access of ['read', 'write', 'create'] as const) {
        await expect(openWith(access)).rejects.toMatchObject(
          refusal(new RegExp(`busy: leatherbook build \\(process ${process.pid} .*since 2031-04-01`), /Wait/),
        );
      }
      await writer.close();
    });

    it('lets only one of two openings at the same moment write', async () => {
      await makeBook();
      const both = await Promise.allSettled([openWith('write'), openWith('write')]);
      expect(both.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
      for (const one of both) if (one.status === 'fulfilled') await one.value.close();
    });

    it('names the command, process and time of a writer in another process', async () => {
      await makeBook();
      const child = startBookChild(dir, 'write', 'hold');
      await child.until(/^holding$/);
      const { pid } = child.process;
      for (const access of ['read', 'write'] as const) {
        await expect(openWith(access)).rejects.toMatchObject(
          refusal(
            new RegExp(`busy: leatherbook hold \\(process ${pid} on ${hostname()}, since 20\\d\\d-\\d\\d-\\d\\dT`),
            /Wait/,
          ),
        );
      }
      child.process.kill('SIGKILL');
      await child.ended;
      // Its holder.json is still there, of a process that is dead.
      expect(readdirSync(dir)).toContain('holder.json');
      const writer = await openWith('write');
      expect(JSON.parse(readFileSync(join(dir, 'holder.json'), 'utf8')).pid).toBe(process.pid);
      await writer.close();
      expect(readdirSync(dir)).not.toContain('holder.json');
    });

    it('names the process of a reader that keeps a writer out', async () => {
      await makeBook();
      const child = startBookChild(dir, 'read', 'hold');
      await child.until(/^holding$/);
      await expect(openWith('write')).rejects.toMatchObject(
        refusal(new RegExp(`busy: another process \\(process ${child.process.pid}\\)`), /Wait/),
      );
      await (await openWith('read')).close();
      child.process.kill('SIGKILL');
      await child.ended;
    });
  });

  describe.runIf(HAS_PRIVATE_MOUNTS)('in a folder of a child with mounts of its own', () => {
    const readOnly = () => `mount --bind ${dir} ${dir} && mount -o remount,ro,bind ${dir}`;

    it('reads a book in a folder that cannot be written, and refuses to write it', async () => {
      await makeBook();
      const [reader, writer] = [
        startBookChild(dir, 'read', 'open', readOnly()),
        startBookChild(dir, 'write', 'open', readOnly()),
      ];
      await Promise.all([reader.ended, writer.ended]);
      expect([reader.lines, reader.stderr()]).toEqual([['done'], '']);
      expect(JSON.parse(writer.lines[0]!)).toMatchObject({
        kind: 'book',
        message: expect.stringMatching(/cannot be written/),
        remedy: expect.stringMatching(/permission|copy/),
      });
    });

    it('refuses to make a book in a folder that cannot be written', async () => {
      mkdirSync(dir);
      const child = startBookChild(dir, 'create', 'open', readOnly());
      await child.ended;
      expect(JSON.parse(child.lines[0]!)).toMatchObject({
        kind: 'book',
        message: expect.stringMatching(/cannot be written/),
      });
    });

    it('refuses to make a book below a folder that cannot be written', async () => {
      mkdirSync(dir);
      const child = startBookChild(join(dir, 'a', 'b'), 'create', 'open', readOnly());
      await child.ended;
      expect(JSON.parse(child.lines[0]!)).toMatchObject({
        kind: 'book',
        message: expect.stringMatching(/cannot be written/),
      });
    });

    it('says that the disk is full', async () => {
      mkdirSync(dir);
      const child = startBookChild(dir, 'create', 'fill', `mount -t tmpfs -o size=6m none ${dir}`);
      await child.ended;
      expect(child.lines[0]).toBe('small');
      expect(JSON.parse(child.lines[1]!)).toMatchObject({
        kind: 'book',
        message: expect.stringMatching(/disk .*full/),
        remedy: expect.stringMatching(/Free some space/),
      });
    });
  });

  it.runIf(process.getuid?.() !== 0)('refuses to write without permission', async () => {
    await makeBook();
    chmodSync(dir, 0o500);
    await expect(openWith('write')).rejects.toMatchObject(refusal(/cannot be written/, /permission/));
    chmodSync(dir, 0o700);
  });
});
