import { beforeAll, expect, test } from 'vitest';
import type { TableAnswer } from '../src/server/answers.ts';
import { useBrowser } from './browser.ts';
import { demo } from './demo.ts';

const browser = useBrowser();

/** Rows of a table of the demo book, as the server gives them. */
async function readRows(query: string): Promise<Record<string, string | number | null>[]> {
  const answer = (await (await fetch(`${demo.address}/api/table/${query}`)).json()) as TableAnswer;
  return Array.from({ length: answer.columns[0]?.values.length ?? 0 }, (_, row) =>
    Object.fromEntries(answer.columns.map(({ name, values }) => [name, values[row] as string | number | null])),
  );
}

const signed = (value: number) => {
  const text = Math.abs(value).toFixed(1);
  return Number(text) === 0 ? text : `${value < 0 ? '\u2212' : '+'}${text}`;
};

let man: Record<string, string | number | null>;
beforeAll(async () => {
  man = (await readRows('fielders?season=2032&position=6&count=1'))[0]!;
});

test('Season shows each club’s sums, what the latest date brought, and the balance sheet', async () => {
  const { page, complaints, close } = await browser.open('/season');
  const clubs = page.getByRole('grid', { name: 'Staircases of the clubs, 2032' });
  await clubs.getByRole('gridcell').first().waitFor();
  const rows = await readRows('teams?season=2032');
  for (const row of rows) {
    const shown = clubs.getByRole('row', { name: String(row.team) });
    expect(await shown.textContent()).toContain(signed(Number(row.placement_runs)));
    expect(await shown.textContent()).toContain(signed(Number(row.net_runs)));
  }
  // Sorted by net, the largest first.
  const names = await clubs.getByRole('row').locator('[aria-colindex="1"]').allTextContents();
  const byNet = [...rows].sort((a, b) => Number(b.net_runs) - Number(a.net_runs)).map((row) => String(row.team));
  expect(names.map((name) => name.trim()).slice(1)).toEqual(byNet);

  await page
    .getByRole('grid', { name: /^Entries of 2032-.* that meant most/ })
    .getByRole('gridcell')
    .first()
    .waitFor();
  const sheet = page.getByRole('grid', { name: 'Marks of 2032' });
  const grounders = await sheet
    .getByRole('row', { name: /^ground, full/ })
    .getByRole('gridcell')
    .allTextContents();
  const [opening, set, gathered, closed] = grounders.slice(2, 6).map((text) => Number(text.replaceAll(',', '')));
  expect(closed).toBeGreaterThan(500);
  expect([opening, set, gathered]).toEqual([closed, closed, closed]);
  expect(complaints).toEqual([]);
  await close();
});

test('Defenders follow the filters in the address bar, and the address bar follows the filters', async () => {
  const team = String(man.team);
  const { page, complaints, close } = await browser.open(
    `/defenders?season=2032&position=6&team=${encodeURIComponent(team)}&unit=outs&sort=name`,
  );
  const grid = page.getByRole('grid');
  await grid.getByRole('gridcell').first().waitFor();
  expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe(`Shortstops of ${team}, 2032`);
  const rows = await readRows(`fielders?season=2032&position=6&team=${encodeURIComponent(team)}&sort=name`);
  expect(await grid.getAttribute('aria-rowcount')).toBe(String(rows.length + 1));
  const first = grid.getByRole('row').nth(1);
  expect(await first.textContent()).toContain(String(rows[0]!.name));
  expect(await first.textContent()).toContain(signed(Number(rows[0]!.net_outs)));

  await page.getByRole('button', { name: /^4/ }).click();
  await page.getByLabel('chances ≥').fill('20');
  await page.getByLabel('chances ≥').press('Enter');
  await page.getByRole('button', { name: 'per 100 chances' }).click();
  await page.getByRole('columnheader', { name: 'reach', exact: true }).click();
  const { searchParams } = new URL(page.url());
  expect(Object.fromEntries(searchParams)).toMatchObject({
    season: '2032',
    position: '4',
    team,
    min_chances: '20',
    per: '100',
    unit: 'outs',
    sort: '-reach_outs',
  });

  // The filter above the table narrows it, by what is read in it, and can be sent with the address.
  await page.goto(`${demo.address}/defenders?season=2032&position=0`);
  const all = await readRows('fielders?season=2032&columns=name,team&count=100000');
  const name = String(man.name);
  const mine = all.filter((row) => row.name === name && row.team === team);
  await page.getByRole('searchbox').fill(`${name.toUpperCase()} ${team}`);
  await page.waitForURL(/contains=/);
  await expect.poll(() => grid.getAttribute('aria-rowcount')).toBe(String(mine.length + 1));
  await page.getByText(`${mine.length} of ${all.length}`).waitFor();
  await page.reload();
  await grid.getByRole('gridcell').first().waitFor();
  expect(await grid.getAttribute('aria-rowcount')).toBe(String(mine.length + 1));
  expect(complaints).toEqual([]);
  await close();
});

test('a defender’s own page has his season, his starts, his gains, his rating and his plays', async () => {
  const path = `/defenders/${encodeURIComponent(String(man.fielder_id))}?season=2032&position=6`;
  const { page, complaints, outside, close } = await browser.open(path);
  const plays = page.getByRole('grid');
  await plays.getByRole('gridcell').first().waitFor();
  expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe(String(man.name));
  const figure = (title: string) => page.locator('figure', { hasText: title });
  expect(await figure('step by step').locator('svg').first().getAttribute('aria-label')).toContain('net');
  expect(await figure('step by step').textContent()).toContain(signed(Number(man.placement_runs)));

  // His starts lie on the field, and the mean start and the mean even spot among them.
  const starts = figure('Where he stood');
  await starts.locator('svg circle').first().waitFor({ state: 'attached' });
  const query = `season=2032&position=6`;
  const { placement } = (await (
    await fetch(`${demo.address}/api/defender/${encodeURIComponent(String(man.fielder_id))}/placement?${query}`)
  ).json()) as { placement: { startXFt: number[]; startYFt: number[]; evenYFt: number[] } };
  expect(placement.startXFt.length).toBeGreaterThan(50);
  expect(await starts.textContent()).toContain(`${placement.startXFt.length} starts`);
  for (const y of [...placement.startYFt, ...placement.evenYFt]) expect(y).toBeGreaterThan(60);
  expect(await figure('Where he gained and lost').locator('svg path title').count()).toBeGreaterThan(3);
  expect(await figure('Rating by season').textContent()).toMatch(/2032/);
  expect(await page.getByRole('heading', { name: 'How far to trust it' }).count()).toBe(1);

  // The play that meant most comes first, and his entries add up to his season.
  const views = (await (
    await fetch(`${demo.address}/api/defender/${encodeURIComponent(String(man.fielder_id))}/plays?${query}`)
  ).json()) as TableAnswer;
  const nets = views.columns.find(({ name }) => name === 'net_runs')!.values.map(Number);
  const rows = await readRows(`fielders?${query}&fielder_id=${encodeURIComponent(String(man.fielder_id))}`);
  const season = rows.reduce((sum, row) => sum + Number(row.net_runs), 0);
  expect(nets.reduce((sum, net) => sum + net, 0)).toBeCloseTo(season, 6);
  const size = await plays.getByRole('row').nth(1).getByRole('gridcell').last().textContent();
  expect(Number(size)).toBeCloseTo(Math.max(...nets.map(Math.abs)), 2);
  expect([complaints, outside]).toEqual([[], []]);
  await close();
});

test('a club’s own page parts placement by batter’s side and overshift, with intervals', async () => {
  const { page, complaints, close } = await browser.open(`/teams/${encodeURIComponent(String(man.team))}?season=2032`);
  const figure = page.locator('figure', { hasText: 'Placement, by batter' });
  await figure.locator('svg').waitFor();
  expect(await figure.textContent()).toMatch(/left-handed, otherwise: [+\u2212]?\d+\.\d runs per 100 plays, 80 % /);
  const split = (await (
    await fetch(`${demo.address}/api/club/${encodeURIComponent(String(man.team))}/placement?season=2032`)
  ).json()) as TableAnswer;
  const sum = (name: string) =>
    split.columns
      .find((column) => column.name === name)!
      .values.reduce<number>((total, value) => total + Number(value), 0);
  // Every full play with a named alignment is in one of the parts.
  const [club] = await readRows(`teams?season=2032&team=${encodeURIComponent(String(man.team))}`);
  const known = await readRows('alignments?count=100000');
  expect(known.length).toBeGreaterThan(0);
  expect(sum('plays')).toBeGreaterThan(0.5 * Number(club!.plays));
  expect(Math.abs(sum('placement_runs') - Number(club!.placement_runs))).toBeLessThan(
    0.2 * Math.abs(Number(club!.placement_runs)) + 3,
  );
  expect(complaints).toEqual([]);
  await close();
});

test('Trust shows calibration, reliability, the balance sheet and what is missing', async () => {
  const { page, complaints, close } = await browser.open('/trust');
  await page.getByRole('grid', { name: 'How much of a play was recorded' }).getByRole('gridcell').first().waitFor();
  const marks = page.locator('figure', { has: page.locator('svg[aria-label^="Calibration of the"]') });
  await expect.poll(() => marks.count()).toBe(3);
  expect(await marks.first().textContent()).toMatch(/Farthest off: said \.\d+, was \.\d+ \(95 % /);
  const files = page.getByRole('grid', { name: /Files read/ });
  const [file] = await readRows('intake_log?sort=file&count=1');
  expect(await files.getByRole('row').nth(1).textContent()).toContain(Number(file!.read).toLocaleString('en'));
  expect(await page.getByRole('button', { name: 'Build again' }).isEnabled()).toBe(true);
  await page.getByRole('link', { name: 'All tables of the book' }).click();
  await page.getByRole('heading', { name: 'Table fielders' }).waitFor();
  expect(complaints).toEqual([]);
  await close();
});

test('a chart is saved as SVG and as PNG, with its own colours in it; a table with drawn cells too, all its rows', async () => {
  const { page, close } = await browser.open(`/teams/${encodeURIComponent(String(man.team))}?season=2032`);
  await page.locator('figure', { hasText: 'step by step' }).locator('.drawing svg').waitFor();
  const bytesOf = async (title: string, kind: string) => {
    const saved = page.waitForEvent('download');
    await page.getByRole('button', { name: `${title}: save as ${kind}` }).click();
    const pieces: Buffer[] = [];
    for await (const piece of await (await saved).createReadStream()) pieces.push(piece as Buffer);
    return Buffer.concat(pieces);
  };
  const defenders = page.getByRole('grid');
  await defenders.getByRole('gridcell').first().waitFor();
  const rowCount = Number(await defenders.getAttribute('aria-rowcount')) - 1;
  expect(await defenders.getByRole('row').count()).toBeLessThan(rowCount + 1);
  for (const title of ['The season, step by step', `Defenders of ${man.team}, 2032`]) {
    const svg = (await bytesOf(title, 'SVG')).toString('utf8');
    expect(svg).toMatch(/^<svg /);
    expect(svg).toContain('rgb(184, 121, 26)');
    expect(svg).not.toContain('var(--');
    if (title.startsWith('Defenders')) expect(svg.match(/<path /g)).toHaveLength(rowCount);
    const png = await bytesOf(title, 'PNG');
    expect([...png.subarray(0, 4)]).toEqual([0x89, 0x50, 0x4e, 0x47]);
    expect(png.length).toBeGreaterThan(2000);
  }
  await close();
});
