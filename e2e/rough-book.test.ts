import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { intake } from '../src/commands/intake.ts';
import { SILENT } from '../src/progress.ts';
import type { MissingAnswer } from '../src/server/answers.ts';
import { type Listening, listen } from '../src/server/listen.ts';
import { TEST_NOW, type TemporaryFolder, temporaryFolder } from '../test/helpers/temporary-book.ts';
import { useBrowser } from './browser.ts';

/** A cut of a supplier's export with spoiled rows, read in and not built. */
const CUT = fileURLToPath(new URL('../test/fixtures/rough', import.meta.url));
const browser = useBrowser();
let folder: TemporaryFolder;
let listening: Listening;
let address: string;

beforeAll(async () => {
  folder = temporaryFolder();
  const book = join(folder.path, 'rough');
  await intake({ book, mapping: join(CUT, 'mapping.yaml') }, { progress: SILENT, now: TEST_NOW });
  listening = await listen({ book, webFolder: inject('webFolder'), port: 0, host: '127.0.0.1' }, { now: TEST_NOW });
  address = listening.address.replace(/\/$/, '');
});
afterAll(async () => {
  await listening?.close();
  rmSync(folder.path, { recursive: true, force: true });
});

test('rows that were set aside are counted by reason, downloaded with their text, and shown where a reason leads', async () => {
  const { reasons } = (await (await fetch(`${address}/api/missing`)).json()) as MissingAnswer;
  const rows = reasons.reduce((sum, reason) => sum + Number(reason.rows), 0);
  expect(rows).toBe(10);
  const { page, complaints, close } = await browser.open('/trust', { address });
  const grid = page.getByRole('grid', { name: 'Rows set aside, by reason' });
  await grid.getByRole('gridcell').first().waitFor();
  expect(await grid.getAttribute('aria-rowcount')).toBe(String(reasons.length + 1));
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('link', { name: 'All of them, with their text' }).click(),
  ]);
  expect(download.suggestedFilename()).toBe('set_aside.csv');
  const lines = readFileSync(await download.path(), 'utf8')
    .trimEnd()
    .split('\r\n');
  expect(lines[0]).toMatch(/^file,line,.*reason.*text/);
  expect(lines.length - 1).toBe(rows);
  expect(lines.filter((line) => line.startsWith('lances-')).length).toBeGreaterThan(0);

  // One with commas in it, which in an address part the values of a list.
  const first = reasons.map(({ reason }) => String(reason)).find((reason) => reason.includes(','))!;
  await grid.getByRole('link', { name: first }).first().click();
  await page.waitForURL(/\/trust\/tables\/set_aside\?is_reason=/);
  await page.getByRole('grid', { name: 'Table set_aside' }).getByText(first).first().waitFor();
  expect(complaints).toEqual([]);
  await close();
});

test('a book that has not been built says on every page what to do', async () => {
  const { page, complaints, close } = await browser.open('/season', { address });
  for (const path of ['season', 'defenders', 'teams', 'plays', 'plan', 'trust']) {
    await page.goto(`${address}/${path}`);
    await page
      .getByText(/has not been built yet/)
      .first()
      .waitFor();
    expect(await page.getByRole('alert').count(), path).toBe(0);
  }
  expect(complaints).toEqual([]);
  await close();
});
