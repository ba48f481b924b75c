import { expect, test } from 'vitest';
import { openBook } from '../src/book/open-book.ts';
import { replaceResults } from '../src/book/replace-results.ts';
import { createRandom } from '../src/numeric/random.ts';
import { TEST_NOW } from '../test/helpers/temporary-book.ts';
import { useBrowser } from './browser.ts';
import { useOwnBook } from './own-book.ts';

const ROWS = 100_000;
const KINDS = ['placement', 'reach', 'finish'];
const browser = useBrowser();

/** A book of invented entries, as many as a few seasons of a large league have. */
const long = useOwnBook(async (dir) => {
  const book = await openBook(dir, { access: 'create', command: 'test', now: TEST_NOW });
  const random = createRandom(3);
  const texts = (name: string, of: (row: number) => string) => ({
    name,
    type: 'text' as const,
    values: Array.from({ length: ROWS }, (_, row) => of(row)),
  });
  const numbers = (name: string, type: 'integer' | 'double', of: (row: number) => number) => ({
    name,
    type,
    values: Float64Array.from({ length: ROWS }, (_, row) => of(row)),
  });
  const outs = Float64Array.from({ length: ROWS }, () => random.next() - 0.5);
  await replaceResults(book, {
    tables: {
      entries: {
        rowCount: ROWS,
        columns: [
          texts('play_id', (row) => `play-${String(row).padStart(6, '0')}`),
          numbers('season', 'integer', (row) => 2031 + Math.floor((row * 3) / ROWS)),
          texts('fielder_id', (row) => `p${row % 300}`),
          numbers('position', 'integer', (row) => 3 + (row % 4)),
          texts('team', (row) => `Club ${row % 12}`),
          texts('kind', (row) => KINDS[row % 3]!),
          numbers('outs', 'double', (row) => outs[row]!),
          numbers('runs', 'double', (row) => 0.75 * outs[row]!),
        ],
      },
    },
    models: {},
    settings: {},
  });
  await book.close();
});

test('a filter over 100,000 entries answers in less than 100 ms', async () => {
  const ask = async (query: string) => {
    const began = performance.now();
    const answer = (await (await fetch(`${long.address}/api/table/entries?${query}`)).json()) as { row_count: number };
    return { ms: performance.now() - began, rows: answer.row_count };
  };
  // The first question copies the table.
  await ask('count=1');
  const filters = [
    'season=2032&count=200',
    'team=Club 3&kind=placement&sort=-runs&count=200',
    'position=6&min_outs=0.4&count=200&sort=outs',
  ];
  for (const filter of filters) {
    // The best of three: other programs share the machine, and a promise is about ours.
    const tries = [await ask(filter), await ask(filter), await ask(filter)];
    expect(tries[0]!.rows).toBeGreaterThan(1000);
    expect(Math.min(...tries.map(({ ms }) => ms)), filter).toBeLessThan(100);
  }
});

test('100,000 rows scroll in frames of a sixtieth second, with some dozen rows in the page', async () => {
  const { page, complaints, close } = await browser.open('/trust/tables/entries', { address: long.address });
  const grid = page.getByRole('grid', { name: 'Table entries' });
  await grid.getByText('play-000000').waitFor();
  expect(await grid.getAttribute('aria-rowcount')).toBe(String(ROWS + 1));

  const frames = await grid.evaluate(async (element) => {
    const times: number[] = [];
    const end = performance.now() + 1500;
    await new Promise<void>((resolve) => {
      const step = (now: number) => {
        times.push(now);
        element.scrollTop += 120;
        if (now < end) requestAnimationFrame(step);
        else resolve();
      };
      requestAnimationFrame(step);
    });
    return times.slice(1).map((time, at) => time - times[at]!);
  });
  const median = [...frames].sort((a, b) => a - b)[Math.floor(frames.length / 2)]!;
  expect(frames.length).toBeGreaterThan(20);
  expect(median).toBeLessThan(1000 / 60 + 2);
  expect(await grid.getByRole('row').count()).toBeLessThan(60);

  await grid.evaluate((element) => {
    element.scrollTop = element.scrollHeight;
  });
  await grid.getByText('play-099999').waitFor();
  expect(complaints).toEqual([]);
  await close();
});

test('keys move through a long table, and what is selected is copied with its columns', async () => {
  const { page, close } = await browser.open('/trust/tables/entries', {
    address: long.address,
    permissions: ['clipboard-read', 'clipboard-write'],
  });
  const grid = page.getByRole('grid');
  await grid.getByText('play-000000').waitFor();
  const focused = () =>
    page.evaluate(() => {
      const cell = document.activeElement as HTMLElement;
      return `${cell.dataset.row} ${cell.dataset.column}`;
    });
  const press = async (key: string) => {
    await page.keyboard.press(key);
    await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
  };
  await grid.getByRole('columnheader').first().focus();
  await press('ArrowDown');
  expect(await focused()).toBe('0 0');
  await press('ArrowRight');
  await press('PageDown');
  const [row] = (await focused()).split(' ').map(Number);
  expect(row).toBeGreaterThan(5);
  await press('Control+End');
  expect(await focused()).toBe(`${ROWS - 1} 8`);
  await press('Home');
  expect(await focused()).toBe(`${ROWS - 1} 0`);
  await press('Control+Home');
  expect(await focused()).toBe('0 0');
  await press('Shift+ArrowDown');
  await press('Shift+ArrowRight');
  await press('Control+c');
  await expect
    .poll(() => page.evaluate(() => navigator.clipboard.readText()))
    .toBe('play_id\tseason\r\nplay-000000\t2031\r\nplay-000001\t2031\r\n');
  // Sorting by key: up to the head, over to outs, enter twice for the smallest first.
  await press('Control+ArrowUp');
  await press('End');
  await press('ArrowLeft');
  await press('Enter');
  await expect.poll(() => page.url()).toContain('sort=-runs');
  await close();
});

test('the button CSV saves all rows, in full precision', async () => {
  const { page, close } = await browser.open('/trust/tables/entries?season=2031&kind=reach', { address: long.address });
  await page.getByRole('grid').getByText('play-000001').waitFor();
  const saved = page.waitForEvent('download');
  await page.getByRole('button', { name: 'CSV' }).click();
  const download = await saved;
  expect(download.suggestedFilename()).toBe('entries.csv');
  const stream = await download.createReadStream();
  let text = '';
  for await (const piece of stream) text += piece;
  const lines = text.trimEnd().split('\r\n');
  expect(lines[0]).toBe('play_id,season,fielder_id,position,team,kind,outs,runs,grade');
  expect(lines.length - 1).toBe(Math.ceil(Math.floor(ROWS / 3) / 3));
  expect(lines[1]).toMatch(/^play-000001,2031,p1,4,Club 1,reach,-?0\.\d{10,},/);
  await close();
});
