import { afterEach, describe, expect, it } from 'vitest';
import { readNames, readPlayTable } from '../../src/book/read-play-table.ts';
import { inventedPlays } from '../helpers/invented-plays.ts';
import { type TemporaryBook, temporaryBook } from '../helpers/temporary-book.ts';

let temporary: TemporaryBook | undefined;
afterEach(async () => {
  await temporary?.remove();
  temporary = undefined;
});

const REQUIRED = `play_id, game_id, date, outs_before, batting_team, fielding_team, batter_id, batter_side, ball_kind,
  outs_made, result`;
const play = (id: string, date = '2031-05-01') =>
  `'${id}', 'g', DATE '${date}', 0, 'A', 'B', 'p1', 'R', 'ground', 1, 'out'`;

describe('readPlayTable', () => {
  it('reads back every column that was written', async () => {
    const plays = inventedPlays(2100);
    temporary = await temporaryBook(plays);
    expect(await readPlayTable(temporary.book)).toEqual(plays);
  });

  it('does not depend on the order of the rows', async () => {
    const plays = inventedPlays(300, 7);
    temporary = await temporaryBook(plays);
    const { book } = temporary;
    for (const table of ['plays', 'starts', 'people']) {
      await book.store.run(
        `CREATE OR REPLACE TABLE ${table} AS SELECT * FROM ${table} ORDER BY hash(${table}::VARCHAR)`,
      );
    }
    const [first] = await book.store.rows('SELECT play_id FROM plays LIMIT 1');
    expect(first!.play_id).not.toBe(plays.playId[0]);
    expect(await readPlayTable(book)).toEqual(plays);
  });

  it('orders by season, then by the bytes of the play id', async () => {
    temporary = await temporaryBook();
    const { book } = temporary;
    const ids = ['b', 'B', 'a10', 'a9', 'é', 'z', '\u{1F9E4}', '\uFB01'];
    for (const id of ids) await book.store.run(`INSERT INTO plays (${REQUIRED}) VALUES (${play(id)})`);
    await book.store.run(`INSERT INTO plays (${REQUIRED}) VALUES (${play('zz-early', '2030-05-01')})`);
    const table = await readPlayTable(book);
    const byBytes = [...ids].sort((a, b) => Buffer.compare(Buffer.from(a), Buffer.from(b)));
    expect(table.playId).toEqual(['zz-early', ...byBytes]);
    expect([...table.season]).toEqual([2030, ...ids.map(() => 2031)]);
    expect(table.date[0]).toBe(Date.UTC(2030, 4, 1) / 86_400_000);
  });

  it('takes a runner as a person, as true, as false or as nobody', async () => {
    temporary = await temporaryBook();
    const { book } = temporary;
    await book.store.run(`INSERT INTO plays (${REQUIRED}, runner_on_1b, runner_on_2b, runner_on_3b) VALUES
      (${play('1')}, 'p9', 'true', 'false'), (${play('2')}, NULL, '', 'FALSE'), (${play('3')}, 'False', NULL, 'p2')`);
    expect([...(await readPlayTable(book)).bases]).toEqual([3, 0, 4]);
  });

  it('infers from an out without a gatherer that nobody recorded who gathered', async () => {
    temporary = await temporaryBook();
    const { book } = temporary;
    const rows = [
      ['1-out-nobody', 1, null, null, 0],
      ['2-out-somebody', 1, 6, null, 1],
      ['3-hit-nobody', 0, null, null, 1],
      ['4-hit-said-unseen', 0, null, false, 0],
      ['5-out-said-seen', 1, null, true, 1],
    ] as const;
    for (const [id, outs, gatherer, seen] of rows) {
      await book.store.run(`INSERT INTO plays (${REQUIRED}, gathered_by, gather_seen) VALUES
        ('${id}', 'g', DATE '2031-05-01', 0, 'A', 'B', 'p1', 'R', 'ground', ${outs}, '${outs ? 'out' : 'single'}', ${gatherer}, ${seen})`);
    }
    expect([...(await readPlayTable(book)).gatherSeen]).toEqual(rows.map((row) => row[4]));
  });

  it("takes the batter's time from the play, else from people, else leaves it empty", async () => {
    temporary = await temporaryBook();
    const { book } = temporary;
    await book.store.run(
      `INSERT INTO plays (${REQUIRED}, batter_to_first_s) VALUES (${play('1')}, 4.0), (${play('2')}, NULL)`,
    );
    await book.store.run(`INSERT INTO plays (${REQUIRED}) VALUES (${play('3').replace("'p1'", "'p2'")})`);
    await book.store.run(
      `INSERT INTO people (person_id, name, home_to_first_s) VALUES ('p1', 'Ada Quill', 4.4), ('p3', NULL, 4.1)`,
    );
    expect([...(await readPlayTable(book)).batterToFirstS]).toEqual([4.0, 4.4, Number.NaN]);
    expect([...(await readNames(book))]).toEqual([['p1', 'Ada Quill']]);
  });

  it('gives a book without plays an empty table', async () => {
    temporary = await temporaryBook();
    const table = await readPlayTable(temporary.book);
    expect([table.count, table.people, table.fielder.length]).toEqual([0, [], 0]);
  });

  it('says which play holds a word that the contract does not have', async () => {
    temporary = await temporaryBook();
    const { book } = temporary;
    await book.store.run(`INSERT INTO plays (${REQUIRED}) VALUES (${play('odd').replace('ground', 'hopper')})`);
    await expect(readPlayTable(book)).rejects.toMatchObject({
      kind: 'book',
      message: expect.stringMatching(/play odd, column ball_kind/),
    });
  });
});
