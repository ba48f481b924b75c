import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBook } from '../../src/book/open-book.ts';
import { readPlayTeller } from '../../src/commands/explain/play-teller.ts';
import { explain } from '../../src/commands/explain.ts';
import { intake } from '../../src/commands/intake.ts';
import { readSetModels } from '../../src/commands/read-set-models.ts';
import { fromSetModelsFile } from '../../src/ledger/set-models.ts';
import { WhatIf } from '../../src/ledger/what-if.ts';
import { SILENT } from '../../src/progress.ts';
import { commonBook } from '../helpers/common-book.ts';
import { TEST_NOW, type TemporaryFolder, temporaryFolder } from '../helpers/temporary-book.ts';

const effects = { progress: SILENT, now: TEST_NOW };

describe('explain', () => {
  let folder: TemporaryFolder;
  let book: string;
  const unbuilt = () => join(folder.path, 'unbuilt');

  beforeAll(async () => {
    folder = temporaryFolder();
    const common = await commonBook(folder.path);
    book = common.book;
    await intake({ book: unbuilt(), mapping: join(common.files, 'mapping.yaml') }, effects);
  });
  afterAll(() => folder.remove());

  async function rows(sql: string) {
    const opened = await openBook(book, { access: 'read', command: 'leatherbook test', now: TEST_NOW });
    try {
      return await opened.store.rows(sql);
    } finally {
      await opened.close();
    }
  }

  const playWhere = async (condition: string) =>
    String(
      (await rows(`SELECT play_id FROM marks JOIN plays USING (play_id) WHERE ${condition} ORDER BY 1 LIMIT 1`))[0]!
        .play_id,
    );

  it('tells a full play from the numbers that the book holds, and scores it again to the same mark', async () => {
    const playId = await playWhere("marks.ball_kind = 'ground' AND grade = 'full' AND gathered_by = 6 AND closed = 1");
    const told = await explain({ book, playId }, effects);
    const [mark] = await rows(`SELECT * FROM marks WHERE play_id = '${playId}'`);
    expect(told.marks).toEqual({
      opening: mark!.opening,
      openingDirect: mark!.opening_direct,
      set: mark!.set,
      gathered: mark!.gathered,
      closed: mark!.closed,
      stakeRuns: 0.75,
    });
    const [balance] = await rows(
      "SELECT logit_shift FROM balance WHERE ball_class = 'ground, full' AND mark_or_kind = 'set'",
    );
    let value = 0;
    for (const { reach, promise } of [...told.defenders].reverse()) value = reach * promise + (1 - reach) * value;
    const odds = Math.exp(Number(balance!.logit_shift));
    expect((value * odds) / (1 - value + value * odds)).toBeCloseTo(Number(mark!.set), 9);
    // A second out on the play is beside the marks.
    const entries = told.entries.filter(({ kind }) => kind !== 'turn');
    expect(entries.reduce((sum, { outs }) => sum + outs, 0)).toBeCloseTo(1 - told.marks.opening, 9);
  });

  it('satisfies a coach: each man with his gap, his time, the mark without him and where he stood against the even spot', async () => {
    const playId = await playWhere("marks.ball_kind = 'ground' AND grade = 'full' AND gathered_by = 4");
    const { defenders, opening, gather, fieldingTeam, bearingDeg } = await explain({ book, playId }, effects);
    expect(defenders.map(({ position }) => position).sort()).toEqual([1, 2, 3, 4, 5, 6]);
    for (const each of defenders) {
      expect(each.name).not.toBeNull();
      expect(each.arrivalS).toBeGreaterThan(0);
      const bearing = (bearingDeg * Math.PI) / 180;
      expect(each.gapFt).toBeCloseTo(each.startYFt * Math.sin(bearing) - each.startXFt * Math.cos(bearing), 9);
      expect(Number.isNaN(each.evenXFt)).toBe(each.position <= 2);
      if (each.reach === 0)
        expect(each.setWithoutHim).toBeCloseTo(defenders.find(({ reach }) => reach === 0)!.setWithoutHim, 12);
    }
    const second = defenders.find(({ position }) => position === 4)!;
    expect(second.setWithoutHim).toBeLessThan(Math.max(...defenders.map(({ setWithoutHim }) => setWithoutHim)));
    expect(gather!.position).toBe(4);
    expect(gather!.name).toBe(second.name);
    expect(opening.lenders).toHaveLength(24);
    for (const { team, date } of opening.lenders) {
      expect(team).not.toBe(fieldingTeam);
      expect(date).toMatch(/^2031-\d\d-\d\d$/);
    }
    expect(opening.low).toBeLessThanOrEqual(opening.high);
  });

  it('tells what it can of plays below grade full', async () => {
    const ground = await explain(
      { book, playId: await playWhere("marks.ball_kind = 'ground' AND grade = 'ground'") },
      effects,
    );
    expect(ground.defenders).toEqual([]);
    expect(ground.marks.set).toBeNaN();
    expect(ground.opening.lenders).toHaveLength(24);
    const whole = await explain(
      { book, playId: await playWhere("marks.ball_kind = 'ground' AND grade = 'whole'") },
      effects,
    );
    expect(whole.gather).toBeNull();
    expect(whole.entries.every(({ kind }) => kind === 'whole')).toBe(true);
  });

  it('takes a full play out of the book so that it can be tried again: its own starts give its own marks and placements', async () => {
    const opened = await openBook(book, { access: 'read', command: 'leatherbook test', now: TEST_NOW });
    try {
      const teller = await readPlayTeller(opened);
      const files = await readSetModels(opened);
      const plain = <T>(data: T): T => JSON.parse(JSON.stringify(data));
      const models = {
        ground: fromSetModelsFile(plain(files.ground!)),
        air: fromSetModelsFile(plain(files.air!)),
      };
      const marked = await opened.store.rows(
        `SELECT play_id, ball_kind, grade FROM marks
         QUALIFY row_number() OVER (PARTITION BY ball_kind, grade ORDER BY hash(play_id)) <= 40 ORDER BY play_id`,
      );
      const tried = new Map<string, number>();
      for (const { play_id, ball_kind, grade } of marked) {
        const story = plain(await teller.tell(opened.store, String(play_id)));
        const { explanation, playCase } = story;
        expect(playCase !== null, `${play_id}`).toBe(grade === 'full');
        if (playCase === null) continue;
        const { opening, set, men } = new WhatIf(models[playCase.ball.ballClass], playCase).try(playCase.starts);
        expect(Math.abs(opening - explanation.marks.opening), `${play_id}`).toBeLessThan(1e-12);
        expect(Math.abs(set - explanation.marks.set), `${play_id}`).toBeLessThan(1e-12);
        for (const { position, placementOuts, placementRuns } of men) {
          const own = explanation.entries.find((each) => each.position === position && each.kind === 'placement');
          expect(Math.abs(placementOuts - (own?.outs ?? 0)), `${play_id}`).toBeLessThan(1e-12);
          expect(Math.abs(placementRuns - (own?.runs ?? 0)), `${play_id}`).toBeLessThan(1e-12);
        }
        tried.set(String(ball_kind), (tried.get(String(ball_kind)) ?? 0) + 1);
      }
      expect([...tried.keys()].sort()).toEqual(['fly', 'ground', 'liner', 'popup']);
      expect(Math.min(...tried.values())).toBe(40);
    } finally {
      await opened.close();
    }
  });

  it.each([
    ['a play that is not there', "holds no play '; DROP TABLE plays; --", "'; DROP TABLE plays; --"],
    ['an empty name', 'holds no play ', ''],
  ])('answers %s with what to do', async (_, message, playId) => {
    await expect(explain({ book, playId }, effects)).rejects.toMatchObject({
      kind: 'data',
      message: expect.stringContaining(message),
      remedy: expect.stringContaining('leatherbook table plays'),
    });
  });

  it('tells of a ball in the air how far each of the nine had to run', async () => {
    const playId = await playWhere("marks.ball_kind = 'fly' AND grade = 'full' AND closed = 1 AND gathered_by > 6");
    const { defenders, entries, marks, ballKind } = await explain({ book, playId }, effects);
    expect(ballKind).toBe('fly');
    expect(defenders.map(({ position }) => position).sort()).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
    for (const { gapFt, runInFt, runAcrossFt, arrivalS } of defenders) {
      expect(gapFt).toBeNaN();
      expect(Math.hypot(runInFt, runAcrossFt)).toBeLessThan(500);
      expect(arrivalS).toBeGreaterThan(0);
    }
    expect(marks.gathered).toBe(1);
    expect(entries.reduce((sum, { outs }) => sum + outs, 0)).toBeCloseTo(1 - marks.opening, 9);
  });

  it('answers a bunt, and a play of a book not built yet, with what to do', async () => {
    const [bunt] = await rows("SELECT play_id FROM plays WHERE ball_kind = 'bunt' LIMIT 1");
    await expect(explain({ book, playId: String(bunt!.play_id) }, effects)).rejects.toMatchObject({
      kind: 'data',
      message: expect.stringContaining('is a bunt'),
    });
    const playId = await playWhere("grade = 'full'");
    await expect(explain({ book: unbuilt(), playId }, effects)).rejects.toMatchObject({
      kind: 'data',
      remedy: expect.stringContaining('leatherbook build'),
    });
  });
});
