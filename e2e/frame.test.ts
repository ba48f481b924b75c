import { expect, test } from 'vitest';
import { useBrowser } from './browser.ts';
import { demo } from './demo.ts';

const browser = useBrowser();
const LABELS = ['Season', 'Defenders', 'Teams', 'Plays', 'Plan', 'Trust'];

test('the menu leads to every page, with no request to anywhere else and nothing for the browser to complain of', async () => {
  const { page, outside, complaints, close } = await browser.open('/');
  for (const label of LABELS) {
    await page.getByRole('link', { name: label, exact: true }).click();
    await page.getByRole('heading', { level: 1 }).waitFor();
    expect(new URL(page.url()).pathname).toBe(`/${label.toLowerCase()}`);
    expect(await page.title()).toBe(`${label} - Leatherbook`);
  }
  expect(await page.locator('header').textContent()).toContain('Tideline League');
  await page.goBack();
  expect(new URL(page.url()).pathname).toBe('/plan');
  expect(outside).toEqual([]);
  expect(complaints).toEqual([]);
  await close();
});

test('the first page is painted in less than a second', async () => {
  // Once to wake the browser up: the promise is about the page.
  await (await browser.open('/season')).close();
  const times: number[] = [];
  for (let load = 0; load < 3; load += 1) {
    const { page, close } = await browser.open('/season');
    await page.getByRole('heading', { level: 1 }).waitFor();
    times.push(
      await page.evaluate(
        () => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? Number.POSITIVE_INFINITY,
      ),
    );
    await close();
  }
  // The middle one: other work of a busy machine can make any one late. bench/pages.ts has the figures of every page.
  expect(times.sort((a, b) => a - b)[1]).toBeLessThan(1000);
});

test('every page can be reached and read with the keyboard alone', async () => {
  const { page, close } = await browser.open('/');
  await page.getByRole('grid').first().waitFor();
  await page.keyboard.press('Tab');
  expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Skip to the page');
  for (const label of LABELS) {
    for (let presses = 0; presses < 12; presses += 1) {
      if ((await page.evaluate(() => document.activeElement?.textContent)) === label) break;
      await page.keyboard.press('Tab');
    }
    await page.keyboard.press('Enter');
    await page.waitForURL(`**/${label.toLowerCase()}`);
  }

  const unseen: string[] = [];
  for (const label of LABELS) {
    const word = label.toLowerCase();
    await page.goto(`${demo.address}/${word}`);
    await page.getByRole('gridcell').first().waitFor();
    // From the menu through all that can be pressed, to the first table; where the focus is can be seen at each stop.
    const reached: string[] = [];
    for (let presses = 0; presses < 90; presses += 1) {
      await page.keyboard.press('Tab');
      const stop = await page.evaluate(() => {
        const element = document.activeElement!;
        const { outlineStyle, outlineWidth } = getComputedStyle(element);
        const name = element.getAttribute('aria-label') ?? element.textContent.trim();
        // A man on the field has a ring of his own.
        const ring = element.querySelector('circle.focus');
        const isRinged = ring !== null && getComputedStyle(ring).visibility === 'visible';
        const isSeen = isRinged || (outlineStyle !== 'none' && outlineWidth !== '0px');
        return { name, role: element.getAttribute('role'), isSeen };
      });
      reached.push(stop.name);
      if (!stop.isSeen) unseen.push(`${label}: ${stop.name}`);
      if (stop.role === 'columnheader') break;
    }
    for (const wanted of [...LABELS, 'Copy', 'CSV']) expect(reached, label).toContain(wanted);
    const focused = () => page.evaluate(() => document.activeElement?.getAttribute('role'));
    expect(await focused(), label).toBe('columnheader');
    // Enter on a head sorts, the arrow leads into the rows, a way back leads out of them.
    await page.keyboard.press('Enter');
    await expect.poll(() => page.evaluate(() => document.activeElement?.getAttribute('aria-sort'))).toMatch(/ending$/);
    await page.getByRole('gridcell').first().waitFor();
    await page.keyboard.press('ArrowDown');
    await expect.poll(focused, { message: label }).toBe('gridcell');
    await page.keyboard.press('Control+ArrowUp');
    await expect.poll(focused, { message: label }).toBe('columnheader');
  }
  expect(unseen).toEqual([]);

  // Along a row to a man, and to his page.
  await page.goto(`${demo.address}/defenders`);
  await page.getByRole('gridcell').first().waitFor();
  await page.getByRole('columnheader').first().focus();
  await page.keyboard.press('ArrowDown');
  await expect.poll(() => page.evaluate(() => document.activeElement?.getAttribute('role'))).toBe('gridcell');
  await page.keyboard.press('Enter');
  await page.waitForURL('**/defenders/*');
  await close();
});

test('a word is explained where the pointer rests, where the focus is, and no longer after Escape', async () => {
  const { page, close } = await browser.open('/defenders');
  await page.getByRole('grid').getByRole('gridcell').first().waitFor();
  const hint = page.getByRole('tooltip');
  await page.getByRole('columnheader', { name: 'reach', exact: true }).hover();
  expect(await hint.textContent()).toContain('getting to the ball');
  await page.mouse.move(5, 700);
  await expect.poll(() => hint.count()).toBe(0);
  const word = page.getByRole('button', { name: 'Net', exact: true });
  await word.focus();
  expect(await hint.textContent()).toContain('what happened');
  await page.keyboard.press('Escape');
  expect(await hint.count()).toBe(0);
  const described = await word.getAttribute('aria-describedby');
  expect(await page.locator(`#${described}`).textContent()).toContain('what happened');
  await close();
});

test('a page narrower than its table scrolls the table, not the page', async () => {
  for (const path of ['/season', '/defenders', '/teams', '/trust']) {
    const { page, close } = await browser.open(path, { viewport: { width: 390, height: 844 } });
    await page.getByRole('grid').first().waitFor();
    const overhang = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(overhang, path).toBe(0);
    await close();
  }
});
