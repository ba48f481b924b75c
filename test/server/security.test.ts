import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, test } from 'vitest';
import { createBookSource } from '../../src/server/book-source.ts';
import { createApp } from '../../src/server/create-app.ts';
import { hostPolicy, isLoopback } from '../../src/server/host-policy.ts';
import { readWebFiles } from '../../src/server/web-files.ts';
import { Work } from '../../src/server/work/work.ts';
import { TEST_NOW, type TemporaryBook, temporaryBook, temporaryFolder } from '../helpers/temporary-book.ts';

const HOST = '127.0.0.1:7420';
const folder = temporaryFolder();
let made: TemporaryBook;
let app: ReturnType<typeof createApp>;

beforeAll(async () => {
  made = await temporaryBook();
  await made.book.close();
  const web = join(folder.path, 'web');
  mkdirSync(join(web, 'assets'), { recursive: true });
  writeFileSync(join(web, 'index.html'), '<!doctype html><title>page</title>');
  writeFileSync(join(web, 'assets', 'main-1a2b.js'), 'export {};');
  writeFileSync(join(web, 'notes.txt'), 'not a page');
  writeFileSync(join(folder.path, 'secret.js'), 'secret');
  symlinkSync(join(folder.path, 'secret.js'), join(web, 'assets', 'link.js'));
  const source = createBookSource(made.dir, { now: TEST_NOW });
  app = createApp({
    workbench: { source, work: new Work(source, TEST_NOW), now: TEST_NOW },
    webFiles: readWebFiles(web),
    isOurHost: hostPolicy('127.0.0.1'),
  });
});
afterAll(async () => {
  await made.remove();
  folder.remove();
});

const ask = (path: string, { headers = {}, ...init }: RequestInit & { headers?: Record<string, string> } = {}) =>
  app.request(`http://${HOST}${path}`, { ...init, headers: { host: HOST, ...headers } });

describe('host', () => {
  const local = hostPolicy('127.0.0.1');
  it.each(['127.0.0.1:7420', 'localhost:7420', 'LOCALHOST', '[::1]:80', '127.0.0.1'])('%s is ours', (host) => {
    expect(local(host)).toBe(true);
  });
  it.each([
    undefined,
    '',
    'example.org',
    'localhost.example.org:7420',
    '127.0.0.1.example.org',
    '10.0.0.5:7420',
    'a b',
    '127.0.0.1@example.org',
  ])('%s is not', (host) => {
    expect(local(host)).toBe(false);
  });
  it('lets plain addresses in when the server is open to the network, and still no name but its own', () => {
    const open = hostPolicy('0.0.0.0');
    expect(['10.0.0.5:7420', '[fe80::1]:7420', 'localhost'].map(open)).toEqual([true, true, true]);
    expect(open('rebound.example.org:7420')).toBe(false);
  });
  it('knows which addresses only this machine reaches', () => {
    expect(['127.0.0.1', '127.1.2.3', '::1', 'localhost'].map(isLoopback)).toEqual([true, true, true, true]);
    expect(['0.0.0.0', '::', '192.168.1.2'].map(isLoopback)).toEqual([false, false, false]);
  });
});

test('a request under another name is refused, whatever it asks for', async () => {
  for (const path of ['/', '/api/book', '/assets/main-1a2b.js']) {
    const answer = await ask(path, { headers: { host: 'rebound.example.org:7420' } });
    expect(answer.status, path).toBe(403);
  }
});

test.each(['POST', 'PUT', 'PATCH', 'DELETE', 'OPTIONS'])('%s is not allowed on what is only read', async (method) => {
  for (const path of ['/', '/api/book', '/api/table/entries', '/api/table/found_plays']) {
    const answer = await ask(path, { method, headers: { origin: `http://${HOST}`, 'x-leatherbook': '1' } });
    expect(answer.status, path).toBe(405);
    expect(answer.headers.get('allow')).toBe('GET, HEAD');
  }
});

test('work is started only by a page of this very origin', async () => {
  const post = (headers: Record<string, string>) => ask('/api/work/stop', { method: 'POST', headers });
  const ours = { origin: `http://${HOST}`, 'x-leatherbook': '1' };
  expect((await post(ours)).status).toBe(200);
  expect((await post({ 'x-leatherbook': '1' })).status).toBe(403);
  expect((await post({ origin: ours.origin })).status).toBe(403);
  expect((await post({ ...ours, origin: 'http://example.org' })).status).toBe(403);
  expect((await post({ ...ours, origin: `https://${HOST}` })).status).toBe(403);
  expect((await post({ ...ours, origin: 'null' })).status).toBe(403);
  const unknown = await ask('/api/work/erase', { method: 'POST', headers: ours });
  expect(unknown.status).toBe(404);
});

test('every answer carries the security headers, and data are not kept', async () => {
  for (const path of [
    '/',
    '/defenders',
    '/nowhere',
    '/api/book',
    '/api/nothing',
    '/api/table/none',
    '/assets/main-1a2b.js',
  ]) {
    const { headers } = await ask(path);
    const policy = headers.get('content-security-policy') ?? '';
    expect(policy, path).toContain("default-src 'none'");
    expect(policy).not.toMatch(/unsafe|\*|https?:/);
    expect(headers.get('x-content-type-options')).toBe('nosniff');
    expect(headers.get('referrer-policy')).toBe('no-referrer');
    expect(headers.get('cross-origin-opener-policy')).toBe('same-origin');
    expect(headers.get('cross-origin-resource-policy')).toBe('same-origin');
    const isHashed = path.startsWith('/assets/');
    expect(headers.get('cache-control')).toBe(isHashed ? 'public, max-age=31536000, immutable' : 'no-store');
  }
});

test('no address leads out of the folder of the pages', async () => {
  const paths = [
    '/../secret.js',
    '/assets/../../secret.js',
    '/%2e%2e/secret.js',
    '/assets/%2e%2e/%2e%2e/secret.js',
    '/assets/..%2f..%2fsecret.js',
    '/assets/%252e%252e/secret.js',
    '//etc/passwd',
    '/assets//etc/passwd',
    `/${encodeURIComponent(join(folder.path, 'secret.js'))}`,
    '/assets/link.js',
    '/assets/main-1a2b.js%00.html',
    '/notes.txt',
    '/assets/\\..\\..\\secret.js',
  ];
  for (const path of paths) {
    const answer = await ask(path);
    const text = await answer.text();
    expect(text, path).not.toContain('secret');
    expect(text, path).not.toContain('root:');
    expect(text, path).not.toContain('not a page');
    expect(answer.status, path).toBe(404);
  }
  expect(await (await ask('/assets/main-1a2b.js')).text()).toBe('export {};');
});

test('HEAD answers as GET without a body', async () => {
  const answer = await ask('/api/book', { method: 'HEAD' });
  expect([answer.status, await answer.text()]).toEqual([200, '']);
});
