import { expect, test } from 'vitest';
import { useBrowser } from './browser.ts';

const browser = useBrowser();

test('the menu leads to every page, with no request to anywhere else and nothing for the browser to complain of', async () => {
  const { page, outside, complaints, close } = await browser.open('/');
  for (const label of ['Season', 'Defenders', 'Teams', 'Plays', 'Plan', 'Trust']) {
    await page.getByRole('link', { name: label, exact: true }).click();
    await page.getByRole('heading', { level: 1 }).waitFor();
    expect(new URL(page.url()).pathname).toBe(`/${label.toLowerCase()}`);
  }
  expect(await page.locator('header').textContent()).toContain('Tideline League');
  expect(outside).toEqual([]);
  expect(complaints).toEqual([]);
  await close();
});
