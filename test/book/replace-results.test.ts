import { existsSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterEach, describe, expect, it } from 'vitest';
import { openBook } from '../../src/book/open-book.ts';
import { readModelFile, replaceResults } from '../../src/book/replace-results.ts';
import { startBookChild } from '../helpers/child-process.ts';
import { TEST_NOW, type TemporaryBook, temporaryBook, temporaryFolder } from '../helpers/temporary-book.ts';
import { versionedResults, versionsIn } from '../helpers/versioned-results.ts';

let temporary: TemporaryBook | undefined;
afterEach(async () => {
  await temporary?.remove();
  temporary = undefined;
});

describe('replaceResults', () => {
  it('puts new results and models in the place of the old ones', async () => {
    temporary = await temporaryBook();
    const { book, dir } = temporary;
    await expect(readModelFile(book, 'reach.bin')).rejects.toMatchObject({
      kind: 'book',
      message: expect.stringMatching(/not been built/),
    });
    for (const version of [1, 2]) {
      await replaceResults(book, versionedResults(version, 5000));
      expect(await versionsIn(book)).toEqual({ versions: [version], entryCount: 5000 });
      expect(readdirSync(join(dir, 'models'))).toHaveLength(1);
    }
  });

  it('empties the tables that the new build does not have, and leaves those of intake alone', async () => {
    temporary = await temporaryBook();
    const { book } = temporary;
    await book.store.run(`INSERT INTO intake_log VALUES ('a.csv', 'plays', 3, 2, 1)`);
    await replaceResults(book, versionedResults(1, 10));
    await replaceResults(book, { tables: {}, models: {}, settings: {} });
    expect(await book.store.rows('SELECT count(*) AS n FROM entries')).toEqual([{ n: 0 }]);
    expect(await book.store.rows('SELECT count(*) AS n FROM build_settings')).toEqual([{ n: 0 }]);
    expect(await book.store.rows('SELECT read FROM intake_log')).toEqual([{ read: 3 }]);
  });

  it('leaves the old results and models when a table of the new ones is wrong', async () => {
    temporary = await temporaryBook();
    const { book } = temporary;
    await replaceResults(book, versionedResults(1, 10));
    const good = versionedResults(2, 10);
    const wrong = { rowCount: 1, columns: [{ name: 'no_such', type: 'text' as const, values: ['x'] }] };
    await expect(replaceResults(book, { ...good, tables: { ...good.tables, balance: wrong } })).rejects.toThrow(
      'no_such',
    );
    expect(await versionsIn(book)).toEqual({ versions: [1], entryCount: 10 });
    await replaceResults(book, versionedResults(3, 10));
    expect(await versionsIn(book)).toEqual({ versions: [3], entryCount: 10 });
  });

  it('writes neither tables of others nor files outside the models folder', async () => {
    temporary = await temporaryBook();
    const { book } = temporary;
    const none = { tables: {}, models: {}, settings: {} };
    const empty = { rowCount: 0, columns: [] };
    await expect(replaceResults(book, { ...none, tables: { plays: empty } })).rejects.toThrow('plays');
    await expect(replaceResults(book, { ...none, tables: { intake_log: empty } })).rejects.toThrow('intake_log');
    await expect(replaceResults(book, { ...none, models: { '../out': new Uint8Array(1) } })).rejects.toThrow('../out');
  });

  it('does not let the file grow with every build', async () => {
    temporary = await temporaryBook();
    const { book, dir } = temporary;
    const sizes: number[] = [];
    for (let version = 1; version <= 8; version++) {
      await replaceResults(book, versionedResults(version, 60_000));
      await book.store.run('CHECKPOINT');
      sizes.push(statSync(join(dir, 'book.duckdb')).size);
    }
    expect(sizes[7]).toBeLessThan(2.5 * sizes[1]!);
  });

  it('names the model file that is gone', async () => {
    temporary = await temporaryBook();
    await replaceResults(temporary.book, versionedResults(1, 10));
    await expect(readModelFile(temporary.book, 'other.bin')).rejects.toMatchObject({
      kind: 'book',
      message: expect.stringMatching(/other\.bin is missing/),
    });
  });

  // kill -9 of a real process, at moments spread over the time that one replacement takes.
  it('leaves whole results, old or new, when the process is killed at any moment', async () => {
    const folder = temporaryFolder();
    const dir = join(folder.path, 'book');
    const openWith = (access: 'create' | 'read' | 'write') =>
      openBook(dir, { access, command: 'leatherbook test', now: TEST_NOW });
    try {
      const first = await openWith('create');
      await replaceResults(first, versionedResults(0, 30_000));
      await first.close();
      let killedInTheMiddle = 0;
      for (const delayMs of [0, 8, 20, 45, 90]) {
        const child = startBookChild(dir, 'write', 'replace');
        await child.until(/^begin 2$/);
        await pause(delayMs);
        child.process.kill('SIGKILL');
        await child.ended;
        if (child.lines.at(-1)!.startsWith('begin')) killedInTheMiddle += 1;
        const begun = Number(child.lines.findLast((line) => line.startsWith('begin'))!.split(' ')[1]);
        const ended = Number(child.lines.findLast((line) => line.startsWith('end'))!.split(' ')[1]);

        const reader = await openWith('read');
        const { versions, entryCount } = await versionsIn(reader);
        await reader.close();
        expect(versions).toHaveLength(1);
        // What was said to have ended is there; what had begun may be.
        expect(versions[0]).toBeGreaterThanOrEqual(ended);
        expect(versions[0]).toBeLessThanOrEqual(begun);
        expect(entryCount).toBe(30_000);
        expect(existsSync(join(dir, 'holder.json'))).toBe(true);
      }
      expect(killedInTheMiddle).toBeGreaterThanOrEqual(3);
      // The next writer tidies up what the killed ones left.
      writeFileSync(join(dir, 'models', 'half'), 'left behind');
      const writer = await openWith('write');
      await replaceResults(writer, versionedResults(7, 100));
      expect(await versionsIn(writer)).toEqual({ versions: [7], entryCount: 100 });
      await writer.close();
      expect(readdirSync(join(dir, 'models'))).toHaveLength(1);
      expect(existsSync(join(dir, 'holder.json'))).toBe(false);
    } finally {
      folder.remove();
    }
  });
});
