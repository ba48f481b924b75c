import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { useBrowser, type WatchedPage } from './browser.ts';

const browser = useBrowser();
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
}

/** What axe-core finds fault with, by all its rules or by `rules` alone; a line a fault. */
async function faults(page: Page, rules: readonly string[]): Promise<string[]> {
  await page.evaluate(AXE);
  const violations = await page.evaluate(async (only) => {
    const { axe } = globalThis as unknown as { axe: { run(options: unknown): Promise<{ violations: Violation[] }> } };
    const options = only.length === 0 ? {} : { runOnly: { type: 'rule', values: only } };
    return (await axe.run(options)).violations;
  }, rules);
  return violations.map(
    ({ id, nodes }) => `${id}: ${nodes[0]?.html} ${nodes[0]?.failureSummary} (${nodes.length} in all)`,
  );
}

interface FielderAnswer {
  readonly columns: readonly { readonly values: readonly (string | number)[] }[];
}
let paths: readonly string[] = [];
let opened: WatchedPage | undefined;

beforeAll(async () => {
  const query = 'season=2032&position=6&count=1&columns=fielder_id,team';
  const answer = (await (await fetch(`${inject('address')}/api/table/fielders?${query}`)).json()) as FielderAnswer;
  const [fielder, team] = answer.columns.map(({ values }) => encodeURIComponent(String(values[0])));
  paths = [
    '/season',
    '/defenders',
    `/defenders/${fielder}?season=2032&position=6`,
    '/teams',
    `/teams/${team}`,
    '/plan?plan=yes',
    '/trust',
    '/trust/tables/entries',
    '/nowhere',
  ];
});
afterAll(() => opened?.close());

test('axe-core finds no fault in any page, light or dark', async () => {
  const found: string[] = [];
  for (const path of paths) {
    // A policy that lets no script in would keep the tester out too; another test holds the policy to its word.
    opened = await browser.open(path, { colorScheme: 'light', bypassCSP: true });
    const { page } = opened;
    await settled(page);
    for (const fault of await faults(page, [])) found.push(`${path}: ${fault}`);
    // What the dark scheme changes is colours.
    await page.emulateMedia({ colorScheme: 'dark' });
    for (const fault of await faults(page, ['color-contrast'])) found.push(`${path}, dark: ${fault}`);
    await opened.close();
  }
  expect(found).toEqual([]);
});

/** Waits until nothing on the page is on its way any more. */
async function settled(page: Page): Promise<void> {
  await page.getByRole('heading', { level: 1 }).first().waitFor();
  await page.waitForFunction(() => !/(Reading|Opening|Looking up|Solving).*…/.test(document.body.textContent));
}
