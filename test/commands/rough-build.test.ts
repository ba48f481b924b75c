import { copyFileSync, existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openBook } from '../../src/book/open-book.ts';
import type { Cell } from '../../src/book/store.ts';
import { build } from '../../src/commands/build.ts';
import type { BuildReport } from '../../src/commands/build-report.ts';
import { intake } from '../../src/commands/intake.ts';
import { SILENT } from '../../src/progress.ts';
import { TEST_NOW, type TemporaryFolder, temporaryFolder } from '../helpers/temporary-book.ts';

/** A supplier's export that nobody made tidy: a cut of it, and the whole when it lies beside the checkout. */
const CUT = fileURLToPath(new URL('../fixtures/rough', import.meta.url));
const WHOLE = process.env.LEATHERBOOK_ROUGH ?? fileURLToPath(new URL('../../../shared/data/rough', import.meta.url));

let folder: TemporaryFolder;
beforeEach(() => {
  folder = temporaryFolder();
});
afterEach(() => folder.remove());

const effects = { progress: SILENT, now: TEST_NOW };

async function buildFrom(
  files: string,
): Promise<{ report: BuildReport; rows(sql: string): Promise<Record<string, Cell>[]> }> {
  for (const name of readdirSync(files)) copyFileSync(join(files, name), join(folder.path, name));
  copyFileSync(join(CUT, 'mapping.yaml'), join(folder.path, 'mapping.yaml'));
  const book = join(folder.path, 'book');
  await intake({ book, mapping: join(folder.path, 'mapping.yaml') }, effects);
  const report = await build({ book, runs: 'flat', window: 'rolling', draws: 24, seed: 1 }, effects);
  const rows = async (sql: string) => {
    const opened = await openBook(book, { access: 'read', command: 'test', now: TEST_NOW });
    try {
      return await opened.store.rows(sql);
    } finally {
      await opened.close();
    }
  };
  return { report, rows };
}

async function expectBalancedBooks(rows: (sql: string) => Promise<Record<string, Cell>[]>) {
  const [worst] = await rows(`SELECT max(abs(closed - opening - credited)) AS off FROM marks JOIN
    (SELECT play_id, sum(outs) AS credited FROM entries WHERE kind <> 'turn' GROUP BY play_id) USING (play_id)`);
  expect(worst?.off).toBeLessThan(1e-9);
  for (const { total } of await rows('SELECT kind, sum(outs) AS total FROM entries GROUP BY season, kind')) {
    expect(Math.abs(total as number)).toBeLessThan(0.5);
  }
}

describe('the rough export', () => {
  test('the cut builds, balances, and is called small', async () => {
    const { report, rows } = await buildFrom(CUT);
    expect(report.plays.ground).toBeGreaterThan(200);
    expect(report.warnings.join('\n')).toMatch(/Only \d+ fully recorded grounders/);
    await expectBalancedBooks(rows);
  });

  test.skipIf(!existsSync(WHOLE))('the whole builds, balances, and looks like baseball', async () => {
    const { report, rows } = await buildFrom(WHOLE);
    const { ground, liner, fly, popup, bunt } = report.plays;
    expect(ground + liner + fly + popup + bunt).toBe(9000);
    expect(report.gradesByKind.ground!.full / ground).toBeGreaterThan(0.9);
    await expectBalancedBooks(rows);
    // Common practice: the middle infielders have the most to do, then third, first, the pitcher; hardly any is the catcher's.
    const chances = await rows('SELECT position, sum(chances) AS n FROM fielders GROUP BY position ORDER BY position');
    const [pitcher, catcher, first, second, third, short] = chances.map(({ n }) => n as number);
    for (const middle of [second, short]) expect(middle).toBeGreaterThan(Math.max(third!, first!));
    for (const corner of [first, third]) expect(corner).toBeGreaterThan(pitcher!);
    expect(catcher).toBeLessThan(pitcher!);
    const [out] = await rows("SELECT avg(closed) AS rate FROM marks WHERE ball_kind = 'ground'");
    expect(out?.rate).toBeGreaterThan(0.68);
    expect(out?.rate).toBeLessThan(0.8);
    // Common practice: pitcher and catcher start from the same place, so neither has placement.
    expect(await rows("SELECT * FROM entries WHERE kind = 'placement' AND position < 3")).toEqual([]);
  });
});
