import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBook } from '../../src/book/open-book.ts';
import { runLeatherbook, SHELL_COMMAND } from '../helpers/run-leatherbook.ts';

const now = () => new Date('2026-01-02T03:04:05Z');
let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'leatherbook-end-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const run = (...args: string[]) => runLeatherbook(args, folder);

test('a wrong option ends the process with 2, and says what and what to do', async () => {
  const { code, out, err } = await run('build', '--book', 'b', '--colour');
  expect({ code, out }).toEqual({ code: 2, out: '' });
  expect(err).toBe(
    "leatherbook: unknown option '--colour'\n  to do:  `leatherbook build --help` lists what it understands.\n",
  );
});

test('a missing mapping file ends it with 3', async () => {
  const { code, err } = await run('intake', '--book', 'new', '--mapping', 'gone.yaml');
  expect(err).toMatch(/gone\.yaml/);
  expect(err).toMatch(/to do:/);
  expect(code).toBe(3);
});

test('a mapping of a file that is not there ends it with 3', async () => {
  writeFileSync(join(folder, 'lost.yaml'), 'tables:\n  people:\n    files: [gone.csv]\n    columns: {person_id: Id}\n');
  const { code, err } = await run('intake', '--book', 'new2', '--mapping', 'lost.yaml');
  expect(err).toMatch(/gone\.csv/);
  expect(code).toBe(3);
});

test('a book that is not there, and a folder that is none, end it with 4', async () => {
  expect(await run('table', 'fielders', '--book', 'nowhere')).toMatchObject({ code: 4 });
  mkdirSync(join(folder, 'attic'));
  writeFileSync(join(folder, 'attic', 'letter.txt'), 'dear');
  const { code, err } = await run('build', '--book', 'attic');
  expect(err).toMatch(/attic is not a book/);
  expect(code).toBe(4);
});

test('a busy book ends it with 4 and names who holds it', async () => {
  const dir = join(folder, 'busy');
  const book = await openBook(dir, { access: 'create', command: 'intake', now });
  const { code, err } = await run('build', '--book', 'busy');
  await book.close();
  expect(err).toMatch(/busy: intake \(process \d+/);
  expect(code).toBe(4);
});

test('a demo refuses a folder that it did not make', async () => {
  mkdirSync(join(folder, 'photos'));
  writeFileSync(join(folder, 'photos', 'one.jpg'), 'x');
  const { code, err } = await run('demo', '--book', 'photos', '--seasons', '1', '--teams', '2');
  expect(err).toMatch(/is not a demo book/);
  expect(code).toBe(4);
});

test('a reader that stops early ends it quietly', () => {
  // The pipe is closed before the command writes.
  const shell = `set -o pipefail; ${SHELL_COMMAND} --help | (exec 0<&-; sleep 2); echo "ended $?"`;
  const { stdout, stderr } = spawnSync('bash', ['-c', shell], { cwd: folder, encoding: 'utf8' });
  expect(stderr).toBe('');
  expect(stdout).toBe('ended 0\n');
});
