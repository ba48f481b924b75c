import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseHTML } from 'linkedom';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CHROMIUM, findProgram } from '../../scripts/needed-programs.ts';
import { openBook } from '../../src/book/open-book.ts';
import { replaceResults } from '../../src/book/replace-results.ts';
import { OUTGOING_TABLES, type OutgoingTableName } from '../../src/book/schema.ts';
import type { Column, ColumnTable } from '../../src/book/store.ts';
import { rangeText, signed } from '../../src/commands/report/numbers.ts';
import { rangeBars } from '../../src/commands/report/range-bar.ts';
import { report } from '../../src/commands/report.ts';
import { TEST_NOW, type TemporaryFolder, temporaryFolder } from '../helpers/temporary-book.ts';

type Cells = Record<string, string | number>;

function tableOf(name: OutgoingTableName, rows: readonly Cells[]): ColumnTable {
  const columns = OUTGOING_TABLES[name].columns.map(({ name: column, type }): Column => {
    if (type === 'text') return { name: column, type, values: rows.map((row) => (row[column] as string) ?? null) };
    return { name: column, type, values: Float64Array.from(rows, (row) => Number(row[column] ?? Number.NaN)) };
  });
  return { rowCount: rows.length, columns };
}

const man = (name: string, more: Cells = {}): Cells => ({
  season: 2032,
  fielder_id: name,
  name,
  position: 6,
  team: 'Maplegarth',
  chances: 100,
  share_full: 0.93,
  reach_runs: 5,
  reach_runs_se: 2,
  net_runs: 4,
  net_runs_se: 2.5,
  reach_rating: 1.25,
  reach_rating_lo80: -0.5,
  reach_rating_hi80: 3,
  ...more,
});

describe('report', () => {
  let folder: TemporaryFolder;
  let book: string;
  const write = (more: { season?: number; minChances?: number } = {}, browser: string | null = null) =>
    report({ book, out: join(folder.path, 'out'), minChances: 25, ...more }, { now: TEST_NOW, browser });
  const page = async (more = {}) => readFileSync((await write(more)).html, 'utf8');

  beforeAll(async () => {
    folder = temporaryFolder();
    book = join(folder.path, 'valley');
    const opened = await openBook(book, { access: 'create', command: 'test', now: TEST_NOW });
    await replaceResults(opened, {
      tables: {
        teams: tableOf('teams', [
          { season: 2031, team: 'Oldhollow', plays: 10, net_runs: 1 },
          { season: 2032, team: 'Maplegarth', plays: 1500, share_full: 0.9, net_runs: 12.34, net_runs_se: 5 },
        ]),
        fielders: tableOf('fielders', [
          man('Nolvem Zanrimont'),
          man('<script>alert("x")</script>', { net_runs: -3 }),
          man('Wilhelmina-Bartholomea Featherstonehaugh', { position: 4 }),
          man('Seldom Seen', { chances: 24 }),
          man('Earlier', { season: 2031 }),
        ]),
        balance: tableOf('balance', [
          { season: 2032, ball_class: 'ground', mark_or_kind: 'opening', total_outs: 800.2, logit_shift: 0.2 },
          { season: 2032, ball_class: 'ground', mark_or_kind: 'reach', total_outs: -1e-12 },
        ]),
        run_table: tableOf('run_table', [{ runners: '1--', outs: 0, runs: 0.85, se: 0.02, source: 'the book' }]),
      },
      models: {},
      settings: { runs: 'flat' },
    });
    await opened.close();
  });
  afterAll(() => folder.remove());

  it('is one page that fetches nothing, runs nothing and takes names for text', async () => {
    const text = await page();
    const { document } = parseHTML(text);
    expect(document.querySelector('script, link, img, iframe')).toBeNull();
    expect(text).not.toMatch(/https?:/);
    expect([...document.querySelectorAll('th')].map((head) => head.textContent)).toContain(
      '<script>alert("x")</script>',
    );
    for (const link of document.querySelectorAll('a')) {
      expect(document.querySelector(link.getAttribute('href')!), String(link)).not.toBeNull();
    }
  });

  it('can be read by ear: captions, heads with their scope, pictures with words', async () => {
    const { document } = parseHTML(await page());
    expect(document.documentElement.getAttribute('lang')).toBe('en');
    for (const table of document.querySelectorAll('table'))
      expect(table.querySelector('caption')?.textContent).toBeTruthy();
    for (const head of document.querySelectorAll('th')) expect(head.getAttribute('scope')).toMatch(/^(col|row)$/);
    for (const picture of document.querySelectorAll('svg')) expect(picture.getAttribute('aria-label')).toMatch(/to/);
  });

  it('has the season asked for, men with enough chances, and each number about a man with its interval', async () => {
    const text = await page();
    expect(text).toContain('valley, 2032');
    expect(text).toContain('Featherstonehaugh');
    expect(text).not.toContain('Seldom Seen');
    expect(text).not.toContain('Earlier');
    expect(text).toContain('+5.0 ± 2.6'); // 2 x 1.2816
    expect(text).toContain('+1.3 (\u22120.5 to +3.0)');
    expect(text).toContain('+12.3 ± 6.4');
    expect(text).toContain('0.85 ± 0.03');
    expect(text).toContain('moved by more than 0.05');
    expect(await page({ season: 2031, minChances: 0 })).toContain('Earlier');
    expect(await page({ minChances: 0 })).toContain('Seldom Seen');
  });

  it('says what is wrong', async () => {
    await expect(write({ season: 1999 })).rejects.toMatchObject({
      kind: 'usage',
      remedy: expect.stringContaining('2031'),
    });
    const empty = join(folder.path, 'empty');
    await (await openBook(empty, { access: 'create', command: 'test', now: TEST_NOW })).close();
    await expect(
      report({ book: empty, out: folder.path, minChances: 0 }, { now: TEST_NOW, browser: null }),
    ).rejects.toMatchObject({ kind: 'book' });
  });

  it('is printed where there is a browser, and says so where there is none or it fails', async () => {
    const printed = await write({}, findProgram(CHROMIUM));
    expect(printed.warning).toBeNull();
    expect(readFileSync(printed.pdf!).subarray(0, 5).toString()).toBe('%PDF-');
    for (const browser of [null, '/bin/false']) {
      const { pdf, warning } = await write({}, browser);
      expect([pdf, existsSync(printed.pdf!)]).toEqual([null, false]);
      expect(warning).toContain('No PDF');
    }
  });
});

describe('numbers of a report', () => {
  it('have a sign where it means something', () => {
    expect([signed(-0.04), signed(0.05, 2), signed(-3), signed(Number.NaN)]).toEqual(['0.0', '+0.05', '\u22123.0', '']);
    expect(rangeText({ value: 1, lo: Number.NaN, hi: Number.NaN })).toBe('+1.0');
  });

  it('are drawn on one axis, inside the picture', () => {
    const ranges = [
      { value: 3, lo: 1, hi: 5 },
      { value: -2, lo: -4, hi: 0 },
    ];
    const bars = rangeBars(ranges, 'runs');
    const dots = ranges.map((range) => Number(/cx="([\d.]+)"/.exec(bars.draw(range)!.text)![1]));
    const zero = Number(/x1="([\d.]+)"/.exec(bars.draw(ranges[0]!)!.text)![1]);
    expect(dots[0]! - zero).toBeCloseTo(-1.5 * (dots[1]! - zero), 0);
    for (const x of [...dots, zero]) {
      expect(x).toBeGreaterThan(0);
      expect(x).toBeLessThan(150);
    }
    expect(bars.draw({ value: Number.NaN, lo: 0, hi: 0 })).toBeNull();
  });
});
