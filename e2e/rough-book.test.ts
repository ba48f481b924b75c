import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { intake } from '../src/commands/intake.ts';
import { SILENT } from '../src/progress.ts';
import type { MissingAnswer } from '../src/server/answers.ts';
import { TEST_NOW } from '../test/helpers/temporary-book.ts';
import { useBrowser } from './browser.ts';
import { useOwnBook } from './own-book.ts';

/** A cut of a supplier's export with spoiled rows, read in and not built. */
const CUT = fileURLToPath(new URL('../test/fixtures/rough', import.meta.url));
const browser = useBrowser();
const rough = useOwnBook(async (book) => {
  await intake({ book, mapping: join(CUT, 'mapping.yaml') }, { progress: SILENT, now: TEST_NOW });
});

test('rows that were set aside are counted by reason, downloaded with their text, and shown where a reason leads', async () => {
  const { reasons } = (await (await fetch(`${rough.address}/api/missing`)).json()) as MissingAnswer;
  const rows = reasons.reduce((sum, reason) => sum + Number(reason.rows), 0);
  expect(rows).toBe(10);
  const { page, complaints, close } = await browser.open('/trust', { address: rough.address });
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
  const { page, complaints, close } = await browser.open('/season', { address: rough.address });
  for (const path of ['season', 'defenders', 'teams', 'plays', 'plan', 'trust']) {
    await page.goto(`${rough.address}/${path}`);
    await page
      .getByText(/has not been built yet/)
      .first()
      .waitFor();
    expect(await page.getByRole('alert').count(), path).toBe(0);
  }
  expect(complaints).toEqual([]);
  await close();
});
