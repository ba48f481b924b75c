import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBook } from '../../src/book/open-book.ts';
import type { Cell } from '../../src/book/store.ts';
import { build } from '../../src/commands/build.ts';
import { type CompareOptions, compare } from '../../src/commands/compare.ts';
import { intake } from '../../src/commands/intake.ts';
import { simulate } from '../../src/commands/simulate.ts';
import { table } from '../../src/commands/table.ts';
import { SILENT } from '../../src/progress.ts';
import { TEST_NOW, type TemporaryFolder, temporaryFolder } from '../helpers/temporary-book.ts';

const effects = { progress: SILENT, now: TEST_NOW };
const settings = { runs: 'flat', window: 'rolling', draws: 24, seed: 3, replicates: 200 } as const;

let folder: TemporaryFolder;
let dir: string;
beforeAll(async () => {
  folder = temporaryFolder();
  const files = join(folder.path, 'files');
  dir = join(folder.path, 'book');
  await simulate({ out: files, seasons: 2, teams: 4, seed: 6, ballsPerSeason: 700 }, { progress: SILENT });
  await intake({ book: dir, mapping: join(files, 'mapping.yaml') }, effects);
  await build({ book: dir, ...settings }, effects);
});
afterAll(() => folder.remove());

async function rows(sql: string): Promise<Record<string, Cell>[]> {
  const book = await openBook(dir, { access: 'read', command: 'leatherbook test', now: TEST_NOW });
  try {
    return await book.store.rows(sql);
  } finally {
    await book.close();
  }
}
const ask = (options: Omit<CompareOptions, 'book'>) => compare({ book: dir, ...options }, effects);

/** The two men with the most chances at a position. */
async function regulars(position: number): Promise<{ id: string; name: string }[]> {
  const found = await rows(
    `SELECT fielder_id AS id, name FROM careers WHERE position = ${position} ORDER BY chances DESC LIMIT 2`,
  );
  return found.map(({ id, name }) => ({ id: String(id), name: String(name) }));
}

describe('what a build says of totals', () => {
  it('adds careers up from seasons, with an error of their own', async () => {
    const [worst] = await rows(
      `SELECT max(abs(c.net_runs - f.net)) AS net, max(abs(c.chances - f.chances)) AS chances, max(abs(c.plays - f.plays)) AS plays,
         count(*) AS n, count(*) FILTER (c.season IS NULL AND c.team IS NULL) AS without
       FROM careers c JOIN (SELECT fielder_id, position, sum(net_runs) AS net, sum(chances) AS chances, sum(plays) AS plays
         FROM fielders GROUP BY ALL) f USING (fielder_id, position)`,
    );
    expect(Number(worst!.net)).toBeLessThan(1e-9);
    expect(Number(worst!.chances)).toBeLessThan(1e-9);
    expect(worst!.plays).toBe(0);
    expect(worst!.without).toBe(worst!.n);
    // Seasons share no game: a career's error is the root of the sum of their squares, but for the season's own means and replicates.
    const [ratio] = await rows(
      `SELECT avg(c.net_runs_se / f.se) AS ratio FROM careers c JOIN (SELECT fielder_id, position, sqrt(sum(net_runs_se ** 2)) AS se,
         count(net_runs_se) AS seasons FROM fielders GROUP BY ALL) f USING (fielder_id, position) WHERE seasons = 2 AND f.se > 0`,
    );
    expect(Math.abs(Number(ratio!.ratio) - 1)).toBeLessThan(0.05);
  });

  it('gives every sum of five games or more an error, and a shorter one none', async () => {
    const [found] = await rows(
      `SELECT count(*) FILTER (games >= 5 AND net_runs_se IS NULL) AS missing, count(*) FILTER (games < 5 AND net_runs_se IS NOT NULL) AS bold,
         count(*) FILTER (games >= 5) AS long FROM fielders JOIN (SELECT season, fielder_id, position, team, count(*) AS games
         FROM game_chances GROUP BY ALL) USING (season, fielder_id, position, team)`,
    );
    expect(found!.missing).toBe(0);
    expect(found!.bold).toBe(0);
    expect(Number(found!.long)).toBeGreaterThan(50);
    const [clubs] = await rows('SELECT count(*) AS n, count(net_runs_se) AS known FROM teams');
    expect(clubs!.known).toBe(clubs!.n);
  });

  it('has rates a chance and by innings that follow from the sums', async () => {
    const [worst] = await rows(
      `SELECT max(abs(r.reach_outs_per_100 * r.chances / 100 - full_reach)) AS chance,
         max(abs(r.net_runs_per_1000_innings * t.outs_played / 3000 - f.net_runs)) AS innings, count(r.reach_outs_per_100) AS n,
         count(r.net_runs_per_1000_innings_se) AS m
       FROM rates r JOIN fielders f USING (season, fielder_id, position, team) JOIN field_time t USING (season, fielder_id, position, team)
       JOIN (SELECT season, fielder_id, position, team, sum(outs) FILTER (kind = 'reach' AND grade = 'full') AS full_reach FROM entries
         GROUP BY ALL) USING (season, fielder_id, position, team)`,
    );
    expect(Number(worst!.chance)).toBeLessThan(1e-9);
    expect(Number(worst!.innings)).toBeLessThan(1e-9);
    expect(Number(worst!.n)).toBeGreaterThan(20);
    expect(Number(worst!.m)).toBeGreaterThan(50);
  });

  it("has room to gain with intervals for men and clubs, a club's being its placement turned round", async () => {
    const [clubs] = await rows(
      `SELECT max(abs(gain_runs + placement_runs)) AS off, max(abs(gain_runs_se - placement_runs_se)) AS se, count(*) AS n
       FROM room_to_gain JOIN teams USING (season, team) WHERE fielder_id IS NULL`,
    );
    expect(clubs!.n).toBe(8);
    expect(Number(clubs!.off)).toBeLessThan(1e-9);
    expect(Number(clubs!.se)).toBeLessThan(1e-9);
    const [men] = await rows(
      `SELECT count(*) AS n, count(*) FILTER (gain_runs_lo80 <= gain_runs_hi80 AND against = 'even') AS whole
       FROM room_to_gain WHERE fielder_id IS NOT NULL AND gain_runs_se IS NOT NULL`,
    );
    expect(Number(men!.n)).toBeGreaterThan(25);
    expect(men!.whole).toBe(men!.n);
  });

  it('refuses a handful of replicates, and careers of another table', async () => {
    await expect(build({ book: dir, ...settings, replicates: 10 }, effects)).rejects.toMatchObject({ kind: 'usage' });
    const options = { book: dir, format: 'text', career: true } as const;
    await expect(table({ ...options, name: 'teams' }, effects)).rejects.toMatchObject({ kind: 'usage' });
    await expect(table({ ...options, name: 'fielders', season: 2031 }, effects)).rejects.toMatchObject({
      kind: 'usage',
    });
    const { rowCount } = await table({ ...options, name: 'fielders' }, effects);
    expect(rowCount).toBe((await rows('SELECT count(*) AS n FROM careers'))[0]!.n);
  });
});

describe('compare', () => {
  it('says the same as the tables', async () => {
    const men = await regulars(6);
    const { defenders, replicates, seed } = await ask({ who: men.map(({ id }) => id), position: 6 });
    expect([replicates, seed]).toEqual([200, 3]);
    for (const defender of defenders) {
      const [career] = await rows(`SELECT * FROM careers WHERE position = 6 AND fielder_id = '${defender.id}'`);
      expect(defender.runs.net!.value).toBeCloseTo(Number(career!.net_runs), 9);
      expect(defender.chances).toBeCloseTo(Number(career!.chances), 9);
      expect(defender.plays).toBe(career!.plays);
      expect(defender.shareFull).toBeCloseTo(Number(career!.share_full), 12);
      // From the same replicates: an 80 % interval is some 2.56 standard errors wide.
      const width = defender.runs.net!.hi80 - defender.runs.net!.lo80;
      expect(Math.abs(width / (2.563 * Number(career!.net_runs_se)) - 1)).toBeLessThan(0.25);
      expect(defender.ratings.find(({ skill }) => skill === 'reach')!.value.value).toBe(career!.reach_rating);
    }
  });

  it('turned round says the opposite, and again says the same', async () => {
    const [one, two] = (await regulars(4)) as [{ id: string; name: string }, { id: string; name: string }];
    const there = await ask({ who: [one.name.toUpperCase(), two.id], position: 4 });
    const back = await ask({ who: [two.id, one.id], position: 4 });
    expect(await ask({ who: [one.id, two.id], position: 4 })).toEqual(there);
    const [a, b] = [there.differences[0]!, back.differences[0]!];
    for (const [x, y] of [
      [a.runs.net!, b.runs.net!],
      [a.outsPer100.reach!, b.outsPer100.reach!],
      [a.ratings[0]!.value, b.ratings[0]!.value],
    ] as const) {
      expect(x.value).toBeCloseTo(-y.value, 9);
      expect(x.lo80).toBeCloseTo(-y.hi80, 9);
      expect(x.chanceAbove).toBeCloseTo(1 - y.chanceAbove, 9);
    }
    expect(a.to.id).toBe(two.id);
  });

  it('refuses one man, a stranger, a name of many, the same man twice and a man who was not there', async () => {
    const [one, two] = await regulars(6);
    await expect(ask({ who: [one!.id] })).rejects.toMatchObject({ kind: 'usage' });
    await expect(ask({ who: [one!.id, 'zz zz'] })).rejects.toThrow(/No defender .* "zz zz"/);
    await expect(ask({ who: [one!.id, 'a'] })).rejects.toThrow(/may be any of \d+ defenders: .* more\.$/);
    await expect(ask({ who: [one!.id, one!.name] })).rejects.toThrow(/named twice/);
    await expect(ask({ who: [one!.id, two!.id], position: 2 })).rejects.toThrow(/no play at position 2/);
    await expect(ask({ who: [one!.id, two!.id], season: 1999 })).rejects.toThrow(/no play in 1999/);
  });
});
