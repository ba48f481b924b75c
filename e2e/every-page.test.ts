import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { beforeAll, expect, test } from 'vitest';
import type { TableAnswer } from '../src/server/answers.ts';
import { useBrowser } from './browser.ts';
import { demo } from './demo.ts';

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

/** What a table lacks of what every table has; a line a lack. */
function lacksOfTables(): string[] {
  return [...document.querySelectorAll<HTMLElement>('[role=grid], table')].flatMap((grid) => {
    const has = (selector: string) => grid.closest('.data-table')?.querySelector(selector) != null;
    const buttons = [...(grid.closest('.data-table')?.querySelectorAll('.bar button') ?? [])].map(
      (each) => each.textContent,
    );
    const lacks = {
      'a filter': !(has('.bar input[type=search]') || document.querySelector('form.filters') !== null),
      Copy: !buttons.includes('Copy'),
      CSV: !buttons.includes('CSV'),
      'a column to sort by': !has('[role=columnheader][aria-sort]'),
      'one cell for the Tab key': grid.querySelectorAll('[tabindex="0"]').length !== 1,
    };
    const name = grid.getAttribute('aria-label') ?? grid.outerHTML.slice(0, 80);
    return Object.entries(lacks).flatMap(([what, isMissing]) => (isMissing ? [`${name} lacks ${what}`] : []));
  });
}

/** What a chart lacks of what every chart has; what is smaller than a cell of a table is a mark, not a chart. */
function lacksOfCharts(): string[] {
  const charts = [...document.querySelectorAll<SVGSVGElement>('main svg')].filter((svg) => svg.clientWidth >= 50);
  return charts.flatMap((svg) => {
    const frame = svg.closest('figure, section[aria-label="The field"], .data-table, details');
    const buttons = [...(frame?.querySelectorAll('button') ?? [])].map((each) => each.getAttribute('aria-label') ?? '');
    // Hidden from who hears the page are charts whose words stand beside them.
    const isHidden = svg.closest('[aria-hidden=true]') !== null;
    const beside = svg.closest('[role=gridcell], figure')?.querySelector('.visually-hidden')?.textContent ?? '';
    // A pocket card is words itself.
    const own = svg.getAttribute('aria-label') ?? (svg.closest('details') === null ? '' : svg.textContent);
    const words = isHidden ? beside : own;
    const lacks = {
      SVG: !buttons.some((label) => label.endsWith(': save as SVG')),
      PNG: !buttons.some((label) => label.endsWith(': save as PNG')),
      'words for it': words.trim().length < 10,
    };
    const name =
      svg.getAttribute('aria-label') ??
      svg.closest('[role=grid]')?.getAttribute('aria-label') ??
      svg.outerHTML.slice(0, 80);
    return Object.entries(lacks).flatMap(([what, isMissing]) => (isMissing ? [`${name} lacks ${what}`] : []));
  });
}

const pages = new Map<
  string,
  {
    readonly faults: readonly string[];
    readonly tables: number;
    readonly charts: number;
    readonly lacks: readonly string[];
  }
>();

async function columnOf(query: string, name: string): Promise<string> {
  const answer = (await (await fetch(`${demo.address}/api/table/${query}`)).json()) as TableAnswer;
  return encodeURIComponent(String(answer.columns.find((each) => each.name === name)!.values[0]));
}

/** Every page once, light and dark. */
beforeAll(async () => {
  const shortstops = 'fielders?season=2032&position=6&count=1';
  const placed = (kind: string) =>
    columnOf(`found_plays?kind=${kind}&grade=full&entry=placement&order=gain&count=1`, 'play_id');
  const paths = [
    '/season',
    '/defenders',
    `/defenders/${await columnOf(shortstops, 'fielder_id')}?season=2032&position=6`,
    '/teams',
    `/teams/${await columnOf(shortstops, 'team')}`,
    '/plays',
    `/plays/${await placed('ground')}`,
    `/plays/${await placed('fly')}`,
    '/plan?plan=yes',
    '/trust',
    '/trust/tables/entries',
    '/nowhere',
  ];
  for (const path of paths) {
    // A policy that lets no script in would keep the tester out too; another test holds the policy to its word.
    const { page, close } = await browser.open(path, { colorScheme: 'light', bypassCSP: true });
    await settled(page);
    const light = await faults(page, []);
    // A card that is folded up is drawn when it is opened.
    if (path.startsWith('/plan')) await page.getByText('Pocket card of these starts').click();
    const lacks = [...(await page.evaluate(lacksOfTables)), ...(await page.evaluate(lacksOfCharts))];
    const charts = await page.locator('figure').count();
    const tables = await page.getByRole('grid').count();
    // What the dark scheme changes is colours.
    await page.emulateMedia({ colorScheme: 'dark' });
    const dark = await faults(page, ['color-contrast']);
    pages.set(path, { faults: [...light, ...dark.map((fault) => `dark: ${fault}`)], tables, charts, lacks });
    await close();
  }
});

/** Waits until nothing on the page is on its way any more. */
async function settled(page: Page): Promise<void> {
  await page.getByRole('heading', { level: 1 }).first().waitFor();
  await page.waitForFunction(() => !/(Reading|Opening|Looking|Solving).*…/.test(document.body.textContent));
}

const told = (which: 'faults' | 'lacks') =>
  [...pages].flatMap(([path, found]) => found[which].map((each) => `${path}: ${each}`));

test('axe-core finds no fault in any page, light or dark', () => {
  expect(told('faults')).toEqual([]);
});

test('every table can be sorted, filtered, walked by keyboard, copied and saved as CSV; every chart saved as SVG and PNG, and told in words', () => {
  expect(told('lacks')).toEqual([]);
  // Beside the fields of plays and plans, and what is drawn in tables.
  expect([...pages.values()].map(({ charts }) => charts)).toEqual([0, 0, 4, 0, 2, 0, 1, 1, 1, 5, 0, 0]);
  // Season 5, Defenders 1 and 1, Teams 1 and 1, Plays 1 and 1 a play, Plan 1, Trust 7 and 1.
  expect([...pages.values()].map(({ tables }) => tables)).toEqual([5, 1, 1, 1, 1, 1, 1, 1, 1, 7, 1, 0]);
});
