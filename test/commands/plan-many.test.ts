import { spawn } from 'node:child_process';
import { cpSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBook } from '../../src/book/open-book.ts';
import { type PlanManyOptions, type PlanManyReport, planMany } from '../../src/commands/plan-many.ts';
import { work } from '../../src/commands/work.ts';
import { type Progress, SILENT } from '../../src/progress.ts';
import { commonBook } from '../helpers/common-book.ts';
import { type PostgresServer, startPostgres } from '../helpers/postgres-server.ts';
import { TEST_NOW, type TemporaryFolder, temporaryFolder } from '../helpers/temporary-book.ts';

const MAIN = fileURLToPath(new URL('../../src/cli/main.ts', import.meta.url));
const effects = { progress: SILENT, now: TEST_NOW, notify: () => {} };

/** One small league, built once; each test that writes takes a copy. */
describe('plans for many', () => {
  let folder: TemporaryFolder;
  let built: string;
  let defence: string;
  let batters: string[];
  /** What one run without trouble makes. */
  let fresh: PlanManyReport['plans'];
  const copy = (name: string) => {
    cpSync(built, join(folder.path, name), { recursive: true });
    return join(folder.path, name);
  };
  const options = (book: string, more: Partial<PlanManyOptions> = {}): PlanManyOptions => ({
    book,
    batters: { lineup: batters.join(',') },
    situations: [
      { outs: 0, bases: 0 },
      { outs: 1, bases: 5 },
    ],
    defence,
    rule: 'two-a-side',
    safeS: 0.4,
    seed: 1,
    threads: 1,
    ...more,
  });

  beforeAll(async () => {
    folder = temporaryFolder();
    built = (await commonBook(folder.path)).book;
    const book = await openBook(built, { access: 'read', command: 'test', now: TEST_NOW });
    const rows = await book.store.rows(
      "SELECT batter_id, max(fielding_team) AS defence, count(*) AS n FROM plays WHERE batter_side = 'R' GROUP BY 1 ORDER BY n DESC, 1 LIMIT 2",
    );
    await book.close();
    batters = rows.map(({ batter_id }) => batter_id as string);
    defence = rows[0]!.defence as string;
  });
  afterAll(() => folder.remove());

  it('keeps them in the book, in order, and makes none twice', async () => {
    const dir = copy('twice');
    const first = await planMany(options(dir, { threads: 2 }), effects);
    expect(first).toMatchObject({ made: 4, failures: [] });
    fresh = first.plans;
    expect(first.plans.map(({ plan }) => [plan.batter, plan.outs])).toEqual(
      batters.flatMap((who) => [
        [who, 0],
        [who, 1],
      ]),
    );
    expect(readdirSync(join(dir, 'plans'))).toEqual([]);
    await checkRoom(dir);
    const lineup = join(folder.path, 'lineup.txt');
    writeFileSync(lineup, `# second in the order\n\n  ${batters[1]}:R # from the right\n`);
    const second = await planMany(options(dir, { batters: { lineup } }), effects);
    expect(second.made).toBe(0);
    expect(second.plans).toEqual(first.plans.slice(2, 4));
    // A build or an update gives the book another build: its plans are still there, and not taken for new.
    const book = await openBook(dir, { access: 'write', command: 'test', now: TEST_NOW });
    await book.store.run("UPDATE plans SET build_id = '000000'");
    await book.close();
    const situations = [{ outs: 1, bases: 5 }];
    const anew = await planMany(options(dir, { batters: { lineup: batters[1]! }, situations }), effects);
    expect(anew).toMatchObject({ made: 1, plans: second.plans.slice(1) });
  });

  /** What the plans would have been worth stands beside what even spots would have been, for the plays that they are about. */
  async function checkRoom(dir: string): Promise<void> {
    const book = await openBook(dir, { access: 'read', command: 'test', now: TEST_NOW });
    const rows = (sql: string) => book.store.rows(sql);
    const room = await rows(`SELECT * FROM room_to_gain WHERE against = 'planned'`);
    const [about] = await rows(
      `SELECT count(*) AS n FROM marks JOIN plays USING (play_id) JOIN plans ON plans.batter_id = plays.batter_id AND plans.side = batter_side
        AND plans.outs = outs_before AND plans.defence = fielding_team
        AND (runner_on_1b IS NOT NULL) = (runners LIKE '1%') AND (runner_on_3b IS NOT NULL) = (runners LIKE '%3')
        AND (runner_on_2b IS NOT NULL) = (runners LIKE '_2_') WHERE grade = 'full'`,
    );
    await book.close();
    const club = room.filter((row) => row.fielder_id === null);
    expect(club).toHaveLength(1);
    expect(club[0]).toMatchObject({ team: defence, plays: about!.n, position: null });
    expect(about!.n).toBeGreaterThan(5);
    // Whether these few plays gained is luck; that the plans were worth something on them or not is a number of outs, and runs are 0.75 of it.
    expect(club[0]!.gain_runs).toBeCloseTo(0.75 * (club[0]!.gain_outs as number), 12);
    expect(Math.abs(club[0]!.gain_outs as number)).toBeLessThan(about!.n as number);
    expect(new Set(room.flatMap((row) => row.position ?? []))).toEqual(new Set([3, 4, 5, 6]));
  }

  it('refuses whom the book does not know', async () => {
    await expect(planMany(options(built, { batters: { lineup: 'nobody' } }), effects)).rejects.toMatchObject({
      kind: 'data',
    });
    await expect(planMany(options(built, { batters: { lineup: ' , ' } }), effects)).rejects.toMatchObject({
      kind: 'usage',
    });
    await expect(planMany(options(built, { defence: 'Nowhere' }), effects)).rejects.toMatchObject({ kind: 'data' });
  });

  it('goes on where a killed run stopped', async () => {
    const dir = copy('killed');
    const words = [
      'plan',
      '--book',
      dir,
      '--lineup',
      batters.join(','),
      '--defence',
      defence,
      '--situations',
      '0:---,1:1-3',
    ];
    const child = spawn(process.execPath, ['--import', 'tsx', MAIN, ...words, '--threads', '1'], { stdio: 'ignore' });
    const ended = new Promise((resolve) => child.once('close', resolve));
    const written = () => {
      const name =
        existsSync(join(dir, 'plans')) && readdirSync(join(dir, 'plans')).find((each) => each.startsWith('journal'));
      return name ? readFileSync(join(dir, 'plans', name), 'utf8').split('\n').length - 2 : 0;
    };
    while (written() < 1 && child.exitCode === null) await pause(20);
    child.kill('SIGKILL');
    await ended;
    const kept = written();
    expect(kept).toBeGreaterThanOrEqual(1);
    expect(kept).toBeLessThan(4);

    const advances: number[] = [];
    const progress: Progress = { ...SILENT, advance: (done) => advances.push(done) };
    const resumed = await planMany(options(dir), { ...effects, progress });
    expect(advances[0]).toBe(kept);
    expect(advances).toHaveLength(1 + 4 - kept);
    expect(resumed.plans).toEqual(fresh);
  });

  describe('through a queue', () => {
    let server: PostgresServer;
    beforeAll(async () => {
      server = await startPostgres();
    });
    afterAll(() => server.stop());

    it('has the same plans from workers with copies of the book', async () => {
      const [asking, helping] = [copy('asking'), copy('helping')];
      const stop = new AbortController();
      const worker = work({ book: helping, queue: server.url, threads: 1 }, { ...effects, signal: stop.signal });
      const report = await planMany(options(asking, { batters: { lineup: batters[0]! }, queue: server.url }), effects);
      stop.abort();
      expect(await worker).toEqual({ answered: 2 });
      expect(report).toMatchObject({ made: 2, failures: [], plans: fresh.slice(0, 2) });
      const kept = async (dir: string) => {
        const book = await openBook(dir, { access: 'read', command: 'test', now: TEST_NOW });
        const sql = `SELECT settings, warnings FROM plans WHERE batter_id = '${batters[0]}' ORDER BY plan_id`;
        return book.store.rows(sql).finally(() => book.close());
      };
      expect(await kept(asking)).toEqual(await kept(join(folder.path, 'killed')));
    });
  });
});
