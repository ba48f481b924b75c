import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBook } from '../../src/book/open-book.ts';
import type { ColumnTable } from '../../src/book/store.ts';
import { build } from '../../src/commands/build.ts';
import type { BuildReport } from '../../src/commands/build-report.ts';
import { intake } from '../../src/commands/intake.ts';
import { ENTRY_KINDS } from '../../src/ledger/entry-kinds.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { SILENT } from '../../src/progress.ts';
import { type Fabricated, fabricatePlays, USUAL } from '../chances/fabricated-plays.ts';
import { COMMON_SETTINGS, commonBook } from '../helpers/common-book.ts';
import { TEST_NOW, type TemporaryFolder, temporaryBook, temporaryFolder } from '../helpers/temporary-book.ts';

const effects = { progress: SILENT, now: TEST_NOW };
const settings = COMMON_SETTINGS;

async function query(book: string, sql: string): Promise<ColumnTable> {
  const opened = await openBook(book, { access: 'read', command: 'leatherbook test', now: TEST_NOW });
  try {
    return await opened.store.query(sql);
  } finally {
    await opened.close();
  }
}

async function rows(book: string, sql: string) {
  const opened = await openBook(book, { access: 'read', command: 'leatherbook test', now: TEST_NOW });
  try {
    return await opened.store.rows(sql);
  } finally {
    await opened.close();
  }
}

/** Grounders of `clubs` with everybody near his usual place, hit where nobody knows, some of them bunts. */
function fabricated(
  count: number,
  clubs: readonly string[],
  more: (k: number) => Fabricated = () => ({}),
): Fabricated[] {
  const random = createRandom(21);
  const near = (spot: readonly [number, number]) =>
    [spot[0] + 6 * random.normal(), spot[1] + 6 * random.normal()] as const;
  return Array.from({ length: count }, (_, k) => {
    const bearing = Math.round(-40 + 80 * random.next());
    const by = bearing < -24 ? 5 : bearing < -2 ? 6 : bearing < 24 ? 4 : 3;
    const [gathered, late] = [random.next() < 0.75, random.next() < 0.07];
    const spot = USUAL[by as 3];
    return {
      club: clubs[k % clubs.length]!,
      day: k % 150,
      bearing,
      speed: 70 + Math.round(30 * random.next()),
      starts: { 3: near(USUAL[3]), 4: near(USUAL[4]), 5: near(USUAL[5]), 6: near(USUAL[6]) },
      gatherAt: near(spot),
      gatherTime: 1.4 + 0.5 * random.next(),
      ...(gathered
        ? { gatheredBy: by, outs: late ? 0 : 1 }
        : { gatheredBy: bearing < -15 ? 7 : bearing < 15 ? 8 : 9, outs: 0 }),
      ...more(k),
    };
  });
}

async function buildOf(
  plays: readonly Fabricated[],
  more: { warm?: boolean } = {},
): Promise<{ report: BuildReport; dir: string; remove: () => Promise<void> }> {
  const { book, dir, remove } = await temporaryBook(fabricatePlays(plays));
  await book.close();
  return { report: await build({ book: dir, ...settings, ...more }, effects), dir, remove };
}

describe('build', () => {
  let folder: TemporaryFolder;
  let files: string;
  let straight: string;
  let report: BuildReport;

  beforeAll(async () => {
    folder = temporaryFolder();
    ({ files, book: straight, report } = await commonBook(folder.path));
  });
  afterAll(() => folder.remove());

  it('counts plays by kind and those in the ledger by grade, bunts among the former only', async () => {
    const kinds = await rows(straight, 'SELECT ball_kind, count(*) AS n FROM plays GROUP BY 1');
    expect(report.plays).toEqual(Object.fromEntries(kinds.map(({ ball_kind, n }) => [ball_kind, Number(n)])));
    expect(report.plays.bunt).toBeGreaterThan(0);
    const grades = await rows(straight, 'SELECT grade, count(*) AS n FROM marks GROUP BY 1');
    expect(report.grades).toEqual(Object.fromEntries(grades.map(({ grade, n }) => [grade, Number(n)])));
    const scored = report.grades.full + report.grades.ground + report.grades.whole;
    expect(scored + report.plays.bunt).toBe(Object.values(report.plays).reduce((sum, n) => sum + n, 0));
    const [bunts] = await rows(
      straight,
      "SELECT count(*) AS n FROM (SELECT play_id FROM marks UNION ALL SELECT play_id FROM entries) JOIN plays USING (play_id) WHERE ball_kind = 'bunt'",
    );
    expect(Number(bunts!.n)).toBe(0);
    const [entries] = await rows(straight, 'SELECT count(*) AS n FROM entries');
    expect(report.entries).toBe(Number(entries!.n));
  });

  it('leaves tables whose entries add up to the marks, in outs and in runs', async () => {
    const [worst] = await rows(
      straight,
      `SELECT max(abs(outs - (closed - opening))) AS outs, max(abs(runs - stake_runs * (closed - opening))) AS runs
       FROM marks JOIN (SELECT play_id, sum(outs) AS outs, sum(runs) AS runs FROM entries WHERE kind <> 'turn' GROUP BY 1)
         USING (play_id)`,
    );
    expect(Number(worst!.outs)).toBeLessThan(1e-9);
    expect(Number(worst!.runs)).toBeLessThan(1e-9);
    const kinds = await rows(straight, 'SELECT season, kind, sum(outs) AS outs FROM entries GROUP BY ALL');
    for (const { season, kind, outs } of kinds) expect(Math.abs(Number(outs)), `${season} ${kind}`).toBeLessThan(1e-6);
    const sheet = await rows(straight, 'SELECT mark_or_kind, total_outs FROM balance');
    for (const { mark_or_kind, total_outs } of sheet) {
      if ((ENTRY_KINDS as readonly unknown[]).includes(mark_or_kind))
        expect(Math.abs(Number(total_outs))).toBeLessThan(1e-6);
    }
  });

  it('says of how many plays of which grade each sum is', async () => {
    for (const table of ['fielders', 'teams', 'balance']) {
      const [worst] = await rows(
        straight,
        `SELECT max(abs(share_full + share_ground + share_whole - 1)) AS off, count(*) FILTER (share_full IS NULL) AS empty FROM ${table}`,
      );
      expect(Number(worst!.off), table).toBeLessThan(1e-12);
      expect(Number(worst!.empty), table).toBe(0);
    }
    // From the marks, by another way: a club's shares, and the plays and shares behind each sum of the sheet.
    const clubs = await rows(
      straight,
      `SELECT t.team, share_full, share_ground, share_whole, avg((m.grade = 'full')::INT) AS f, avg((m.grade = 'ground')::INT) AS g,
         avg((m.grade = 'whole')::INT) AS w FROM teams t JOIN plays p ON p.fielding_team = t.team JOIN marks m USING (play_id) GROUP BY ALL`,
    );
    expect(clubs).toHaveLength(4);
    for (const { share_full, share_ground, share_whole, f, g, w } of clubs) {
      expect([share_full, share_ground, share_whole]).toEqual(
        [f, g, w].map((share) => expect.closeTo(Number(share), 12)),
      );
      expect(Number(share_ground)).toBeGreaterThan(0);
    }
    const sums = await rows(
      straight,
      `SELECT b.plays, n, share_ground, g FROM balance b
       JOIN (SELECT ball_kind, e.kind, count(DISTINCT play_id) AS n FROM entries e JOIN marks USING (play_id) GROUP BY ALL) e
         ON e.ball_kind = b.ball_class AND e.kind = b.mark_or_kind
       JOIN (SELECT ball_kind, avg((grade = 'ground')::INT) AS g FROM marks GROUP BY 1) m ON m.ball_kind = b.ball_class`,
    );
    expect(sums.length).toBeGreaterThan(10);
    for (const { plays, n, share_ground, g } of sums) {
      expect(Number(plays)).toBe(Number(n));
      expect(Number(share_ground)).toBeCloseTo(Number(g), 12);
    }
    const marks = await rows(
      straight,
      `SELECT b.plays, n FROM balance b JOIN (SELECT ball_kind || ', ' || grade AS c, count(*) AS n FROM marks GROUP BY 1) ON c = ball_class`,
    );
    for (const { plays, n } of marks) expect(Number(plays)).toBe(Number(n));
    const [differing] = await rows(
      straight,
      'SELECT count(*) AS n FROM entries e JOIN marks m USING (play_id) WHERE e.grade IS DISTINCT FROM m.grade',
    );
    expect(Number(differing!.n)).toBe(0);
  });

  it('gives pitcher and catcher no placement', async () => {
    const found = await rows(straight, "SELECT DISTINCT position FROM entries WHERE kind = 'placement' ORDER BY 1");
    expect(found.map(({ position }) => Number(position))).toEqual([3, 4, 5, 6, 7, 8, 9]);
  });

  it('comes to the same last bit whatever the order of the rows in the files', async () => {
    const random = createRandom(9);
    for (const name of ['plays-2031.csv', 'starts-2031.csv', 'people.csv']) {
      const [header, ...lines] = readFileSync(join(files, name), 'utf8').trimEnd().split('\n');
      for (let i = lines.length - 1; i > 0; i -= 1) {
        const j = random.integer(i + 1);
        [lines[i], lines[j]] = [lines[j]!, lines[i]!];
      }
      writeFileSync(join(files, name), `${[header, ...lines].join('\n')}\n`);
    }
    const turned = join(folder.path, 'turned');
    const taken = await intake({ book: turned, mapping: join(files, 'mapping.yaml') }, effects);
    expect(taken.setAside).toBe(0);
    expect(await build({ book: turned, ...settings }, effects)).toEqual({ ...report, book: turned });
    for (const sql of [
      'SELECT * FROM marks ORDER BY play_id',
      'SELECT * FROM entries ORDER BY play_id, position, kind',
      'SELECT * FROM fielders ORDER BY season, fielder_id, position, team',
      'SELECT * FROM balance ORDER BY ALL',
    ]) {
      expect(await query(turned, sql), sql).toEqual(await query(straight, sql));
    }
  });
});

describe('build of unusual books', () => {
  it('draws a lone club from its own plays and says so on every one, bunts left out', async () => {
    const { report, dir, remove } = await buildOf(
      fabricated(400, ['Reed'], (k) => (k % 10 === 0 ? { kind: 'bunt' } : {})),
    );
    try {
      expect(report.plays).toEqual({ ground: 360, liner: 0, fly: 0, popup: 0, bunt: 40 });
      const flags = await rows(dir, 'SELECT DISTINCT flags FROM marks');
      expect(flags).toEqual([{ flags: 'own_clubs_placements' }]);
      const [sum] = await rows(dir, "SELECT sum(outs) AS outs FROM entries WHERE kind = 'placement'");
      expect(Math.abs(Number(sum!.outs))).toBeLessThan(1e-6);
    } finally {
      await remove();
    }
  });

  it('takes sixty grounders, and warns; built again from its last fits it says the same', async () => {
    const { report, dir, remove } = await buildOf(fabricated(60, ['Reed', 'Marsh']));
    const marks = () => rows(dir, 'SELECT opening, "set", gathered FROM marks ORDER BY play_id');
    try {
      expect(report.grades).toEqual({ full: 60, ground: 0, whole: 0 });
      expect(report.warnings.join(' ')).toMatch(/Only 60 fully recorded grounders/);
      const before = await marks();
      await build({ book: dir, ...settings, warm: true }, effects);
      (await marks()).forEach((own, k) => {
        for (const mark of ['opening', 'set', 'gathered'])
          expect(Math.abs(Number(own[mark]) - Number(before[k]![mark]))).toBeLessThan(1e-3);
      });
    } finally {
      await remove();
    }
  });

  it('takes a book in which nobody saw a start, and a warm start without a build to begin at', async () => {
    const blind = { 3: null, 4: null, 5: null, 6: null };
    const plays = fabricated(400, ['Reed', 'Marsh'], () => ({ starts: blind }));
    const { report, dir, remove } = await buildOf(plays, { warm: true });
    try {
      expect(report.grades).toEqual({ full: 0, ground: 400, whole: 0 });
      const kinds = await rows(dir, 'SELECT DISTINCT kind FROM entries ORDER BY 1');
      expect(kinds.map(({ kind }) => kind)).toEqual(['finish', 'ground']);
    } finally {
      await remove();
    }
  });

  it('refuses a book of bunts alone, with what to do', async () => {
    const { book, dir, remove } = await temporaryBook(
      fabricatePlays(fabricated(20, ['Reed'], () => ({ kind: 'bunt' }))),
    );
    try {
      await book.close();
      await expect(build({ book: dir, ...settings }, effects)).rejects.toMatchObject({
        kind: 'data',
        message: expect.stringMatching(/holds no play for the ledger: 20 plays/),
        remedy: expect.stringContaining('set_aside'),
      });
    } finally {
      await remove();
    }
  });
});
