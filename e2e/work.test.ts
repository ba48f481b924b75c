import { cpSync, truncateSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, test } from 'vitest';
import type { BookAnswer, TableAnswer, WorkAnswer } from '../src/server/answers.ts';
import { startBookChild } from '../test/helpers/child-process.ts';
import { useBrowser } from './browser.ts';
import { demo } from './demo.ts';
import { serveBook, useOwnBook } from './own-book.ts';

const browser = useBrowser();
const copy = useOwnBook((dir) => cpSync(demo.book, dir, { recursive: true }));

afterEach(() =>
  fetch(`${copy.address}/api/work/stop`, { method: 'POST', headers: { origin: copy.address, 'x-leatherbook': '1' } }),
);

const readBook = async () => (await (await fetch(`${copy.address}/api/book`)).json()) as BookAnswer;
const readWork = async () => (await (await fetch(`${copy.address}/api/work`)).json()) as WorkAnswer;

test('a build that is started from the page shows how far it is, and stopping it leaves the results as they were', async () => {
  const before = await readBook();
  const { page, close } = await browser.open('/trust', { address: copy.address });
  await page.getByRole('button', { name: 'Build again' }).click();
  const bar = page.getByRole('region', { name: 'Work that goes on' });
  await bar.getByRole('progressbar').waitFor();
  await expect.poll(async () => (await readWork()).running?.total ?? 0, { timeout: 30_000 }).toBeGreaterThan(0);
  await expect.poll(() => bar.textContent()).toMatch(/Building: \S+.* so far/s);
  // Pages are read meanwhile, from the copy of before.
  await page.getByText('What you see is from before').waitFor();
  const fielders = await fetch(`${copy.address}/api/table/fielders?count=1`);
  expect(fielders.status).toBe(200);

  await bar.getByRole('button', { name: 'Stop' }).click();
  await page.getByText('The build was stopped; the results from before are as they were.').waitFor();
  const after = await readBook();
  expect(after.behind).toBe(null);
  expect(after.build_id).toBe(before.build_id);
  await close();
});

test('plans against everybody, started on a club’s page, show how far they are and can be stopped', async () => {
  const { teams } = await readBook();
  const { page, close } = await browser.open(`/teams/${encodeURIComponent(teams[0]!)}`, { address: copy.address });
  await page.getByRole('button', { name: 'Plan against everybody' }).click();
  const bar = page.getByRole('region', { name: 'Work that goes on' });
  await expect.poll(async () => (await readWork()).running?.done ?? 0, { timeout: 60_000 }).toBeGreaterThan(0);
  const { done, total } = (await readWork()).running!;
  expect(total).toBeGreaterThan(done);
  await expect
    .poll(() => bar.textContent())
    .toMatch(/Planning against everybody: Plans\s+· \d+ s so far, .* left of this step/);
  expect(Number(await bar.getByRole('progressbar').getAttribute('value'))).toBeGreaterThan(0);
  await bar.getByRole('button', { name: 'Stop' }).click();
  await page.getByText('Planning against everybody was stopped; what was made is kept').waitFor();
  expect(await bar.count()).toBe(0);
  expect((await readBook()).behind).toBe(null);
  const plans = (await (await fetch(`${copy.address}/api/table/plans?count=1`)).json()) as TableAnswer;
  expect(plans.row_count).toBe(0);
  await close();
});

test('while another program writes to the book, pages say so and show what was before; with nothing from before, they say what to do', async () => {
  const child = startBookChild(copy.dir, 'write', 'hold');
  try {
    await child.until(/holding/);
    await expect(serveBook(copy.dir)).rejects.toThrow(/is busy/);
    const answer = await readBook();
    expect(answer.behind?.message ?? '').toMatch(/is busy: leatherbook hold/);
  } finally {
    child.process.kill();
    await child.ended;
  }
  expect((await readBook()).behind).toBe(null);
});

test('a book that is damaged while the workbench is open gives a page that says so and what to do', async () => {
  const damaged = join(copy.dir, '..', 'damaged');
  cpSync(demo.book, damaged, { recursive: true });
  const served = await serveBook(damaged);
  truncateSync(join(damaged, 'book.duckdb'), 5000);
  const { page, close } = await browser.open('/defenders', { address: served.address });
  await page.getByText(`The book ${damaged} is damaged.`).waitFor();
  await page.getByText(/^Restore the book from a copy/).waitFor();
  await close();
  await served.close();
});
