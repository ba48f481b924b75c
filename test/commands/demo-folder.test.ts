import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { openBook } from '../../src/book/open-book.ts';
import { prepareDemoFolder } from '../../src/commands/demo-folder.ts';

const now = () => new Date('2026-01-02T03:04:05Z');
let root = '';
let dir = '';
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'leatherbook-demo-'));
  dir = join(root, 'demo-book');
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

test('a new folder becomes a demo book, and a demo book a fresh one', async () => {
  await prepareDemoFolder(dir, { now });
  const first = readdirSync(dir).sort();
  mkdirSync(join(dir, 'files'));
  writeFileSync(join(dir, 'files', 'plays.csv'), 'old');
  await prepareDemoFolder(dir, { now });
  expect(readdirSync(dir).sort()).toEqual(first);
});

test('a demo that was killed while it cleared its folder is taken up again', async () => {
  await prepareDemoFolder(dir, { now });
  rmSync(join(dir, 'book.duckdb'));
  await prepareDemoFolder(dir, { now });
  expect(existsSync(join(dir, 'book.duckdb'))).toBe(true);
});

test("somebody's folder, somebody's book and somebody's file in a demo book are left alone", async () => {
  mkdirSync(dir);
  writeFileSync(join(dir, 'thesis.txt'), 'years of work');
  await expect(prepareDemoFolder(dir, { now })).rejects.toMatchObject({
    kind: 'book',
    message: expect.stringMatching(/is not a demo book/),
  });
  expect(existsSync(join(dir, 'thesis.txt'))).toBe(true);

  const own = join(root, 'own');
  await (await openBook(own, { access: 'create', command: 'intake', now })).close();
  await expect(prepareDemoFolder(own, { now })).rejects.toMatchObject({
    message: expect.stringMatching(/is not a demo book/),
  });

  const demo = join(root, 'demo');
  await prepareDemoFolder(demo, { now });
  writeFileSync(join(demo, 'notes.txt'), 'mine');
  await expect(prepareDemoFolder(demo, { now })).rejects.toMatchObject({
    message: expect.stringMatching(/notes\.txt/),
  });
  expect(readdirSync(demo)).toContain('book.duckdb');
});

test('a demo book that is open elsewhere is left alone', async () => {
  await prepareDemoFolder(dir, { now });
  const reader = await openBook(dir, { access: 'read', command: 'table', now });
  await expect(prepareDemoFolder(dir, { now })).rejects.toMatchObject({
    kind: 'book',
    message: expect.stringMatching(/busy/),
  });
  await reader.close();
  await prepareDemoFolder(dir, { now });
});
