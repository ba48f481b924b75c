import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import type { PlayAnswer, TableAnswer } from '../src/server/answers.ts';
import { useBrowser } from './browser.ts';
import { demo } from './demo.ts';

const browser = useBrowser();

/** What whoever hears the page is told of the element that has the focus. */
const FOCUSED =
  "document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent?.trim() ?? ''";

/** Answers of the server itself, beside what the page makes of them. */
async function ask<T>(path: string): Promise<T> {
  const response = await fetch(`${demo.address}${path}`);
  expect(response.status, path).toBe(200);
  return (await response.json()) as T;
}

/** Plays as the list asks for them, by column. */
async function find(query: string) {
  const { row_count: playCount, columns } = await ask<TableAnswer>(`/api/table/found_plays?${query}`);
  return { playCount, column: (name: string) => columns.find((each) => each.name === name)!.values };
}

const playIds = new Map<string, string>();
/** A play of each kind with a man placed well, so that moving him matters. */
beforeAll(async () => {
  for (const kind of ['ground', 'liner', 'fly', 'popup']) {
    const found = await find(`kind=${kind}&grade=full&entry=placement&order=gain&count=20`);
    playIds.set(kind, String(found.column('play_id')[12]));
  }
});

const dataOf = async (page: Page, name: string) =>
  Number(await page.locator('[data-set]').first().getAttribute(`data-${name}`));
const open = async (kind: string, query = '') => {
  const watched = await browser.open(`/plays/${playIds.get(kind)}${query}`);
  await watched.page.locator('[data-set]').first().waitFor({ state: 'attached' });
  return watched;
};
const placedWell = async (kind: string) => {
  const answer = await ask<PlayAnswer>(`/api/play/${playIds.get(kind)}`);
  const { position } = answer.explanation.entries
    .filter((entry) => entry.kind === 'placement')
    .reduce((best, entry) => (Math.abs(entry.outs) > Math.abs(best.outs) ? entry : best));
  return { answer, position };
};
const discOf = (page: Page, position: number) =>
  page.locator('svg g[role=button]').filter({ has: page.locator(`text="${position}"`) });

const filterOf = (page: Page, label: string) =>
  page
    .locator('label')
    .filter({ has: page.getByText(label, { exact: true }) })
    .locator('select');

describe('a play', () => {
  it.each(['ground', 'liner', 'fly', 'popup'])('has in the browser the marks of the build, %s', async (kind) => {
    const { page, complaints, outside, close } = await open(kind);
    const { explanation } = await ask<PlayAnswer>(`/api/play/${playIds.get(kind)}`);
    expect(Math.abs((await dataOf(page, 'set')) - explanation.marks.set)).toBeLessThan(1e-12);
    expect(Math.abs((await dataOf(page, 'opening')) - explanation.marks.opening)).toBeLessThan(1e-12);
    expect(complaints).toEqual([]);
    expect(outside).toEqual([]);
    await close();
  });

  it.each(['ground', 'fly'])('follows a dragged start within 16 ms, %s', async (kind) => {
    const { page, close } = await open(kind);
    const { position } = await placedWell(kind);
    const before = await dataOf(page, 'set');
    const box = (await discOf(page, position).boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let step = 1; step <= 40; step += 1) await page.mouse.move(x + step, y - step / 2);
    await page.mouse.up();
    expect(await dataOf(page, 'set')).not.toBe(before);
    const took = await page.evaluate(() => performance.getEntriesByName('move-drawn').map(({ duration }) => duration));
    expect(took.length).toBeGreaterThan(20);
    took.sort((a, b) => a - b);
    // The middle one: other work of a busy machine falls on single moves.
    expect(took[Math.floor(took.length / 2)]).toBeLessThan(16);
    await close();
  });

  it('restores a what-if from its link, and leaves it by "As they stood"', async () => {
    const { page, close } = await open('ground');
    const { answer, position } = await placedWell('ground');
    await discOf(page, position).focus();
    for (let press = 0; press < 3; press += 1) await page.keyboard.press('Shift+ArrowLeft');
    await page.keyboard.press('ArrowUp');
    await page.waitForURL(/moves=/);
    const set = await dataOf(page, 'set');
    const again = await open('ground', new URL(page.url()).search);
    expect(await dataOf(again.page, 'set')).toBe(set);
    expect(set).not.toBeCloseTo(answer.explanation.marks.set, 9);
    await again.page.getByRole('button', { name: 'As they stood' }).click();
    expect(Math.abs((await dataOf(again.page, 'set')) - answer.explanation.marks.set)).toBeLessThan(1e-12);
    await again.page.waitForURL((url) => !url.search.includes('moves'));
    await again.close();
    await close();
  });

  it('can be walked through with the keyboard alone', async () => {
    const { page, close } = await browser.open('/plays?kind=ground&grade=full');
    await page.getByRole('gridcell').first().waitFor();
    for (let press = 0; press < 30; press += 1) {
      if ((await page.evaluate(() => document.activeElement?.getAttribute('role'))) === 'columnheader') break;
      await page.keyboard.press('Tab');
    }
    await page.keyboard.press('ArrowDown');
    await expect.poll(() => page.evaluate(() => document.activeElement?.getAttribute('role'))).toBe('gridcell');
    await page.keyboard.press('Enter');
    await page.locator('[data-set]').first().waitFor({ state: 'attached' });
    const reached: string[] = [];
    for (let press = 0; press < 30; press += 1) {
      await page.keyboard.press('Tab');
      const name = await page.evaluate<string>(FOCUSED);
      reached.push(name);
      if (/^6 shortstop/.test(name)) {
        const before = await dataOf(page, 'set');
        for (let step = 0; step < 4; step += 1) await page.keyboard.press('Shift+ArrowRight');
        expect(await dataOf(page, 'set')).not.toBe(before);
        await page.keyboard.press('Escape');
        expect(await dataOf(page, 'set')).toBe(before);
      }
      if (/Let the ball run/.test(name)) {
        await page.keyboard.press('Enter');
        await page.getByRole('button', { name: 'Let the ball run' }).waitFor({ timeout: 8000 });
      }
    }
    for (const wanted of [
      /^3 first base/,
      /^6 shortstop/,
      /Let the ball run/,
      /Seconds after contact/,
      /Even spots/,
      /Copy link/,
    ])
      expect(
        reached.some((name) => wanted.test(name)),
        String(wanted),
      ).toBe(true);
    await close();
  });

  it('lets the ball run with the clock, and in still half seconds where motion is not wanted', async () => {
    const { page, close } = await browser.open(`/plays/${playIds.get('fly')}`, { reducedMotion: 'reduce' });
    const seconds = page.getByLabel('Seconds after contact');
    await page.getByRole('button', { name: 'Let the ball run' }).click();
    const seen = new Set<number>();
    for (let look = 0; look < 25; look += 1) {
      seen.add(Number(await seconds.inputValue()));
      await page.waitForTimeout(80);
    }
    const end = Number(await seconds.getAttribute('max'));
    for (const at of seen) expect(Math.min(Math.abs((at * 2) % 1), Math.abs(at - end)), `${at}`).toBeLessThan(0.11);
    await close();
  });

  it('says what it cannot try, and where there is no such play', async () => {
    const found = await find('grade=whole&count=1');
    const { page, close } = await browser.open(`/plays/${found.column('play_id')[0]}`);
    await page.getByText('cannot be tried with other starts').waitFor();
    await page.goto(`${demo.address}/plays/nobody`);
    await page.getByText('holds no play nobody').waitFor();
    await close();
  });
});

describe('the list of plays', () => {
  it('finds by filter, keeps the filter in the address, and counts what it finds', async () => {
    const { page, close } = await browser.open('/plays');
    await filterOf(page, 'Ball').selectOption('ground');
    await filterOf(page, 'Entry').selectOption('finish');
    await filterOf(page, 'Order').selectOption('loss');
    await page.waitForURL(/order=loss/);
    const found = await find('kind=ground&entry=finish&order=loss&count=100000');
    await page.getByText(`${found.playCount.toLocaleString('en')} plays, each with its largest finish entry`).waitFor();
    const outs = found.column('outs').map(Number);
    expect(outs).toEqual([...outs].sort((a, b) => a - b));
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'CSV' }).click(),
    ]);
    const [head, ...lines] = readFileSync(await download.path(), 'utf8')
      .trimEnd()
      .split('\r\n');
    expect(head).toMatch(/^play_id,ball_kind,.*,outs,runs,grade$/);
    expect(lines.map((line) => line.split(',')[0])).toEqual(found.column('play_id'));

    // A column's head orders all that were found, not those that are shown; the address has it.
    const grid = page.getByRole('grid', { name: 'Plays' });
    await grid.getByRole('columnheader', { name: 'Batter' }).click();
    await page.waitForURL(/sort=batter/);
    const first = [...found.column('batter').map(String)].sort((a, b) => (a < b ? -1 : 1))[0]!;
    await expect.poll(() => grid.locator('[data-row="0"][data-column="3"]').textContent()).toContain(first);
    await page.goBack();
    expect(new URL(page.url()).search).not.toContain('order');
    await close();
  });
});
