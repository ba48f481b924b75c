/**
 * The workbench in Chromium: first paint of every page, and when its first table is there. Target: 1 s. Each load has a browser
 * profile of its own, so nothing is in the cache. And how soon the server answers when plays are looked for. Target: 0.1 s. `npx tsx bench/pages.ts [BOOK]`, after `npm run build`; without a book the
 * default demo is made first.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { demo } from '../src/commands/demo.ts';
import { SILENT } from '../src/progress.ts';
import { listen } from '../src/server/listen.ts';

const LOADS = 21;
const PAGES = ['season', 'defenders', 'teams', 'plays', 'plan', 'trust', 'trust/tables/entries'];
const FILTERS = [
  '',
  'sort=batter',
  'sort=-runs&from=60000',
  'kind=ground&entry=finish&order=loss',
  'season=2032&grade=full&out=yes',
];
const CHROMIUM = process.env.LEATHERBOOK_CHROMIUM ?? '/usr/bin/chromium';
const effects = { progress: SILENT, now: () => new Date() };

const folder = mkdtempSync(join(tmpdir(), 'leatherbook-bench-'));
const book = process.argv[2] ?? join(folder, 'demo');
if (process.argv[2] === undefined) await demo({ book, seasons: 3, teams: 12, seed: 1 }, effects);
const webFolder = fileURLToPath(new URL('../dist/web', import.meta.url));
const listening = await listen({ book, webFolder, port: 0, host: '127.0.0.1' }, effects);
const sandbox = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
const browser = await chromium.launch({ executablePath: CHROMIUM, args: [...sandbox, '--disable-dev-shm-usage'] });

const at = (sorted: readonly number[], share: number) =>
  sorted[Math.floor(share * (sorted.length - 1))]!.toFixed(0).padStart(5);

async function load(path: string): Promise<{ readonly paint: number; readonly table: number }> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 720 } });
  const page = await context.newPage();
  await page.goto(`${listening.address.replace(/\/$/, '')}/${path}`);
  await page.getByRole('gridcell').first().waitFor();
  const times = await page.evaluate(() => ({
    paint: performance.getEntriesByName('first-contentful-paint')[0]!.startTime,
    table: performance.now(),
  }));
  await context.close();
  return times;
}

try {
  await load('season');
  console.log(`load ${loadavg()[0]!.toFixed(1)}; ms: first paint (median, 90 %), first table (median, 90 %)`);
  for (const path of PAGES) {
    const times: { readonly paint: number; readonly table: number }[] = [];
    for (let k = 0; k < LOADS; k += 1) times.push(await load(path));
    const sorted = (which: 'paint' | 'table') => times.map((each) => each[which]).sort((a, b) => a - b);
    const [paint, table] = [sorted('paint'), sorted('table')];
    console.log(`${path.padEnd(22)} ${at(paint, 0.5)} ${at(paint, 0.9)}   ${at(table, 0.5)} ${at(table, 0.9)}`);
  }
  console.log('ms until plays that are looked for are answered: median, 90 %');
  for (const words of FILTERS) {
    const times: number[] = [];
    for (let k = 0; k < LOADS; k += 1) {
      const began = performance.now();
      await (await fetch(`${listening.address}api/table/found_plays?count=200&${words}`)).text();
      times.push(performance.now() - began);
    }
    times.sort((a, b) => a - b);
    console.log(`${(words || 'all').padEnd(46)} ${at(times, 0.5)} ${at(times, 0.9)}`);
  }
} finally {
  await browser.close();
  await listening.close();
  rmSync(folder, { recursive: true, force: true });
}
