import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { connect } from 'node:net';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Listening, listen } from '../../src/server/listen.ts';
import { browserCommand } from '../../src/server/open-browser.ts';
import { startBookChild } from '../helpers/child-process.ts';
import { SHELL_COMMAND } from '../helpers/run-leatherbook.ts';
import { TEST_NOW, type TemporaryBook, temporaryBook, temporaryFolder } from '../helpers/temporary-book.ts';

const folder = temporaryFolder();
const web = join(folder.path, 'web');
let made: TemporaryBook;
let listening: Listening;

beforeAll(async () => {
  mkdirSync(web);
  writeFileSync(join(web, 'index.html'), 'the page');
  made = await temporaryBook();
  await made.book.close();
  listening = await listen({ book: made.dir, webFolder: web, port: 0, host: '127.0.0.1' }, { now: TEST_NOW });
});
afterAll(async () => {
  await listening.close();
  await made.remove();
  folder.remove();
});

/** Sends bytes that no library would and reads all that comes back. */
function speak(request: string): Promise<string> {
  return new Promise((resolve, reject) => {
    const socket = connect(Number(new URL(listening.address).port), '127.0.0.1', () => socket.end(request));
    let answer = '';
    socket.on('data', (bytes) => {
      answer += bytes;
    });
    socket.on('end', () => resolve(answer));
    socket.on('error', reject);
  });
}

test('paths that no browser sends lead nowhere', async () => {
  const { host } = new URL(listening.address);
  for (const path of [
    '/../../../../etc/passwd',
    '/assets/../../package.json',
    '/%2e%2e/%2e%2e/etc/passwd',
    'http://example.org/x',
    '*',
    '/\\..\\x',
  ]) {
    const answer = await speak(`GET ${path} HTTP/1.1\r\nHost: ${host}\r\nConnection: close\r\n\r\n`);
    expect(answer, path).toMatch(/^HTTP\/1\.1 (400|403|404) /);
    expect(answer, path).not.toMatch(/root:|"leatherbook"/);
  }
  expect(await speak(`GET / HTTP/1.1\r\nHost: rebound.example.org\r\nConnection: close\r\n\r\n`)).toMatch(
    /^HTTP\/1\.1 403 /,
  );
  expect(await speak(`GET / HTTP/1.1\r\nHost: ${host}\r\nConnection: close\r\n\r\n`)).toMatch(
    /^HTTP\/1\.1 200 [\s\S]*the page/,
  );
});

test('another program can write to the book while the workbench is open, and the workbench sees it', async () => {
  const version = async () =>
    ((await (await fetch(`${listening.address}api/book`)).json()) as { version: string }).version;
  const before = await version();
  const child = startBookChild(made.dir, 'write', 'replace');
  await child.until(/end 1/);
  child.process.kill('SIGKILL');
  await child.ended;
  expect(await version()).not.toBe(before);
});

test('a port that is taken is refused by name, and passed over when none was asked for', async () => {
  const other = createServer();
  await new Promise<void>((resolve) => other.listen(0, '127.0.0.1', resolve));
  const { port } = other.address() as { port: number };
  const options = { book: made.dir, webFolder: web, host: '127.0.0.1' };
  await expect(listen({ ...options, port }, { now: TEST_NOW })).rejects.toThrow(`127.0.0.1:${port} is in use`);
  await expect(listen({ ...options, host: '203.0.113.7', port: 0 }, { now: TEST_NOW })).rejects.toThrow(
    /no address 203/,
  );
  const [first, second] = [await listen(options, { now: TEST_NOW }), await listen(options, { now: TEST_NOW })];
  expect(first.address).not.toBe(second.address);
  await Promise.all([first.close(), second.close()]);
  other.close();
});

test('a book that is none is told before anything listens', async () => {
  await expect(
    listen({ book: join(folder.path, 'none'), port: 0, host: '127.0.0.1' }, { now: TEST_NOW }),
  ).rejects.toThrow(/There is no book/);
});

test('serve prints its address, answers there, and ends well on Ctrl-C', async () => {
  const child: ChildProcess = spawn('sh', [
    '-c',
    `exec ${SHELL_COMMAND} serve --book "$0" --port 0 --no-open --quiet`,
    made.dir,
  ]);
  const ended = new Promise<number | null>((resolve) => child.on('close', resolve));
  const address = await new Promise<string>((resolve) =>
    createInterface({ input: child.stdout! }).once('line', resolve),
  );
  expect(address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
  expect((await fetch(`${address}api/book`)).status).toBe(200);
  child.kill('SIGINT');
  expect(await ended).toBe(0);
});

test('a browser is opened only where there is a display', () => {
  expect(browserCommand('linux', {})).toBe(null);
  expect(browserCommand('linux', { DISPLAY: ':0' })).toEqual(['xdg-open']);
  expect(browserCommand('linux', { WAYLAND_DISPLAY: 'wayland-0' })).toEqual(['xdg-open']);
  expect(browserCommand('darwin', {})).toEqual(['open']);
});
