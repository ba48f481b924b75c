import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { IN_MEMORY, openDuckDbStore } from '../../src/book/duckdb-store.ts';
import { openBook } from '../../src/book/open-book.ts';
import { replaceResults } from '../../src/book/replace-results.ts';
import { createTablesSql } from '../../src/book/schema.ts';
import { quoteText } from '../../src/book/sql-text.ts';
import { renderCsv } from '../../src/commands/table/render-csv.ts';
import { textNumber } from '../../src/commands/table/render-text.ts';
import { columnsOf, TABLE_NAMES, tableQuery } from '../../src/commands/table/table-query.ts';
import { TEXT_COLUMNS } from '../../src/commands/table/text-columns.ts';
import { type TableOptions, table } from '../../src/commands/table.ts';
import { csvText } from '../../src/csv-text.ts';
import { inventedPlays } from '../helpers/invented-plays.ts';
import { TEST_NOW, type TemporaryBook, temporaryBook } from '../helpers/temporary-book.ts';

const text = (name: string, values: (string | null)[]) => ({ name, type: 'text' as const, values });
const integer = (name: string, values: number[]) => ({
  name,
  type: 'integer' as const,
  values: Int32Array.from(values),
});
const double = (name: string, values: number[]) => ({
  name,
  type: 'double' as const,
  values: Float64Array.from(values),
});

const FIELDERS = {
  rowCount: 3,
  columns: [
    integer('season', [2030, 2031, 2031]),
    text('fielder_id', ['person001', 'person002', 'person003']),
    text('name', ['Ada Quill', '=HYPERLINK("x")', 'Bo, "the Hand" Ray']),
    integer('position', [6, 4, 6]),
    text('team', ['Tarn', 'Tarn', 'Moss']),
    integer('plays', [400, 300, 200]),
    double('chances', [120.25, 80.5, 1 / 3]),
    double('net_outs', [-3.25, 12.125, 0.1 + 0.2]),
    double('reach_outs', [-1e-7, 2.5, Number.NaN]),
    double('net_runs', [-2.4375, 9.09375, 0.225]),
    double('net_runs_se', [3.04, 10.46, Number.NaN]),
    double('reach_runs', [-1e-7, 1.875, Number.NaN]),
    double('reach_runs_se', [0.96, 1, Number.NaN]),
    double('reach_rating', [0.4, 1.25, Number.NaN]),
    double('reach_rating_lo80', [-0.5, 0.75, Number.NaN]),
    double('reach_rating_hi80', [1.3, 1.75, Number.NaN]),
  ],
};

let temporary: TemporaryBook;
let dir: string;
beforeAll(async () => {
  temporary = await temporaryBook(inventedPlays(120), [{ personId: 'person001', name: 'Ada Quill' }]);
  const { book } = temporary;
  dir = temporary.dir;
  await replaceResults(book, {
    tables: {
      fielders: FIELDERS,
      entries: {
        rowCount: 3,
        columns: [
          text('play_id', ['play-1', 'play-1', 'play-1']),
          integer('season', [2031, 2031, 2031]),
          text('fielder_id', ['person001', 'person001', 'person009']),
          integer('position', [6, 6, 4]),
          text('team', ['Tarn', 'Tarn', 'Tarn']),
          text('kind', ['finish', 'placement', 'reach']),
          double('outs', [0.125, -0.0625, 0.25]),
          double('runs', [0.1, -0.05, 0.2]),
        ],
      },
      ratings: {
        rowCount: 2,
        columns: [
          integer('season', [2031, 2031]),
          integer('position', [6, 3]),
          text('kind', ['reach', 'reach']),
          text('part', ['all', 'backhand']),
        ],
      },
    },
    models: {},
    settings: {},
  });
  await book.store.run(`INSERT INTO intake_log VALUES ('a.csv', 'plays', 3, 2, 1)`);
  await book.store.run(
    `INSERT INTO set_aside VALUES ('a.csv', 7, 'plays', 'date', 'no such day', '1;2;=1+1\u001b[31m\n')`,
  );
  await book.close();
});
afterAll(() => temporary.remove());

const effects = { now: TEST_NOW };
const ask = (options: Partial<TableOptions>) =>
  table({ book: dir, name: 'fielders', format: 'text', ...options }, effects);
const textOf = async (options: Partial<TableOptions>) => [...(await ask(options)).chunks].join('');
const refusal = (message: RegExp, remedy: RegExp) => ({
  kind: 'usage',
  message: expect.stringMatching(message),
  remedy: expect.stringMatching(remedy),
});

describe('table as text', () => {
  it('aligns columns, rounds, sorts by net outs and says what is left out', async () => {
    const [header, ...lines] = (await textOf({})).split('\n');
    expect(header).toBe(
      'season  fielder_id  name                position  team  chances  reach       net          reach_rating, 80 %',
    );
    expect(lines).toEqual([
      '  2031  person002   =HYPERLINK("x")            4  Tarn     80.5  +1.9 ± 1.0  +9.1 ± 10.5  +1.3 (+0.8 to +1.8)',
      '  2031  person003   Bo, "the Hand" Ray         6  Moss      0.3              +0.2',
      '  2030  person001   Ada Quill                  6  Tarn    120.3   0.0 ± 1.0  -2.4 ±  3.0  +0.4 (-0.5 to +1.3)',
      '',
      expect.stringMatching(/^Kinds and net in runs, ± one standard error; ratings in outs per 100 chances\. /),
      expect.stringMatching(/^Reach by direction, where the evidence carries it: /),
      '3 rows.',
      expect.stringMatching(/^Empty in these rows, so not shown: placement, finish, turn, /),
      expect.stringMatching(/^--format csv, json or parquet has all \d+ columns\.$/),
      '',
    ]);
  });

  it('puts the name after the id, and keeps the order of the kinds', async () => {
    const lines = (await textOf({ name: 'entries' })).split('\n');
    expect(lines.slice(1, 4).map((line) => line.split(/ {2,}/).slice(2, 8))).toEqual([
      ['person001 Ada Quill', '6', 'Tarn', 'placement', '-0.063', '-0.050'],
      ['person009', '4', 'Tarn', 'reach', '+0.250', '+0.200'],
      ['person001 Ada Quill', '6', 'Tarn', 'finish', '+0.125', '+0.100'],
    ]);
  });

  it('shows 50 rows unless told, and says how many there are', async () => {
    const answer = await ask({ name: 'plays' });
    expect([answer.rowCount, answer.shownCount]).toEqual([120, 50]);
    const shown = [...answer.chunks].join('');
    expect(shown).toContain('50 of 120 rows; --limit N shows more');
    expect(shown.split('\n\n')[0]!.split('\n')).toHaveLength(51);
    expect(await textOf({ name: 'plays', limit: 200 })).toContain('\n120 rows.');
    expect(await textOf({ name: 'plays', limit: 3 })).toContain('3 of 120 rows');
  });

  it('lets no control character of a source file reach the terminal', async () => {
    const shown = await textOf({ name: 'set_aside' });
    expect(shown).toContain('1;2;=1+1·[31m·');
    expect(shown).not.toContain('\u001b');
  });

  it('says why there is nothing', async () => {
    expect(await textOf({ season: 1999 })).toBe('No row of fielders matches --season 1999.\n');
    expect(await textOf({ name: 'reliability' })).toMatch(
      /^The table reliability is empty: the last build had nothing/,
    );
    expect((await ask({ name: 'ratings', part: 'backhand' })).rowCount).toBe(1);
    expect(await textOf({ name: 'ratings', position: 6, part: 'backhand' })).toMatch(
      /^No row of ratings matches --position 6 --part backhand\. Reach is rated by direction only where/,
    );
    await expect(ask({ name: 'ratings', part: 'back' })).rejects.toMatchObject(
      refusal(/--part got "back"/, /parts of ratings are all, ground, air, glove side/),
    );
    const fresh = await temporaryBook();
    const dirOf = { book: fresh.dir };
    await fresh.book.close();
    expect(await textOf({ ...dirOf })).toMatch(/not been built yet; run leatherbook build --book/);
    expect(await textOf({ ...dirOf, season: 1999 })).toMatch(/not been built yet/);
    expect(await textOf({ ...dirOf, name: 'plays' })).toMatch(/nothing has come in yet; run leatherbook intake/);
    expect(await textOf({ ...dirOf, name: 'set_aside' })).toMatch(/nothing has come in yet/);
    const again = await openBook(fresh.dir, { access: 'write', command: 'test', now: TEST_NOW });
    await again.store.run(`INSERT INTO intake_log VALUES ('a.csv', 'plays', 3, 3, 0)`);
    await again.close();
    expect(await textOf({ ...dirOf, name: 'set_aside' })).toMatch(/every row that was read could be used/);
    await fresh.remove();
  });

  it('never shows a minus before zeros', () => {
    expect([-1e-9, -0, 0.04, -0.06].map((value) => textNumber(value, 'net_outs'))).toEqual([
      '0.0',
      '0.0',
      '0.0',
      '-0.1',
    ]);
    expect(textNumber(0.76549, 'opening')).toBe('0.765');
  });

  it('names only columns that the tables have', () => {
    for (const [name, columns] of Object.entries(TEXT_COLUMNS)) {
      for (const column of columns) expect(columnsOf(name as 'plays')).toContain(column);
    }
  });
});

describe('table filters', () => {
  it.each<[Partial<TableOptions>, string[]]>([
    [{ season: 2031 }, ['person002', 'person003']],
    [{ position: 6 }, ['person003', 'person001']],
    [{ team: 'Tarn' }, ['person002', 'person001']],
    [{ minChances: 80.5 }, ['person002', 'person001']],
    [{ season: 2031, position: 6, team: 'Moss', minChances: 0 }, ['person003']],
    [{ team: `x' OR '1'='1` }, []],
  ])('%o', async (filters, expected) => {
    const rows = JSON.parse(await textOf({ ...filters, format: 'json' }));
    expect(rows.map((row: { fielder_id: string }) => row.fielder_id)).toEqual(expected);
  });

  it('names the columns of a table that does not have the one asked for', async () => {
    await expect(ask({ name: 'balance', position: 6 })).rejects.toMatchObject(
      refusal(/--position does not go with the table balance/, /season, ball_class, mark_or_kind/),
    );
    await expect(ask({ name: 'teams', minChances: 5 })).rejects.toMatchObject(
      refusal(/--min-chances .*no column chances/, /season, team/),
    );
    await expect(ask({ name: 'plays', team: 'Tarn' })).rejects.toMatchObject(
      refusal(/no column team/, /fielding_team/),
    );
  });

  it.each<[Partial<TableOptions>, RegExp, RegExp]>([
    [{ name: 'people' }, /no table "people"/, /fielders, teams/],
    [{ format: 'xml' as 'csv' }, /no format "xml"/, /text, csv, json, parquet/],
    [{ position: 10 }, /--position wants .* from 1 to 9 and got 10/, /Correct/],
    [{ season: 20.5 }, /--season wants a whole number .* got 20.5/, /Correct/],
    [{ minChances: Number.NaN }, /--min-chances wants/, /Correct/],
    [{ limit: -1 }, /--limit wants/, /Correct/],
    [{ format: 'parquet' }, /Parquet is not text/, /--out FILE/],
  ])('refuses %o', async (options, message, remedy) => {
    await expect(ask(options)).rejects.toMatchObject(refusal(message, remedy));
  });

  it('binds the SQL of every table and filter against the engine', async () => {
    const store = await openDuckDbStore(IN_MEMORY);
    await store.run(createTablesSql());
    for (const name of TABLE_NAMES) {
      const columns = columnsOf(name);
      const filters = {
        season: columns.includes('season') ? 2031 : undefined,
        position: columns.includes('position') ? 6 : undefined,
        team: columns.includes('team') ? "O'Dell" : undefined,
        minChances: columns.includes('chances') ? 5 : undefined,
      };
      const query = tableQuery(name, filters);
      expect((await store.query(query.rowsSql(columns, 5))).columns.map((column) => column.name)).toEqual(columns);
      expect(await store.rows(query.countSql)).toEqual([{ n: 0 }]);
    }
    await store.close();
  });
});

// Plus 0, because minus 0 is written as 0.
const NUMBER = fc.double({ noNaN: true, noDefaultInfinity: true }).map((value) => value + 0);

describe('table as csv', () => {
  it('writes full precision, CRLF, quotes, empty cells and every column', async () => {
    const lines = (await textOf({ format: 'csv' })).split('\r\n');
    expect(lines[0]!.split(',')).toEqual(columnsOf('fielders'));
    expect(lines[2]).toMatch(/^2031,person003,"Bo, ""the Hand"" Ray",6,Moss,200,0\.3333333333333333,,,,/);
    expect(lines[2]).toContain(',0.30000000000000004,');
    expect(lines[3]).toContain(',-1e-7,');
    expect(lines).toHaveLength(5);
  });

  it('keeps a spreadsheet from running a text, and leaves numbers alone', async () => {
    expect((await textOf({ format: 'csv' })).split('\r\n')[1]).toContain(`,"'=HYPERLINK(""x"")",`);
    expect(['=1', '+a', '-a', '@x', '\tx', '\rx', '-12', '+3.5', 'a=1', ''].map((cell) => csvText(cell))).toEqual([
      `'=1`,
      `'+a`,
      `'-a`,
      `'@x`,
      `'\tx`,
      `"'\rx"`,
      '-12',
      '+3.5',
      'a=1',
      '""',
    ]);
    const numbers = { rowCount: 1, columns: [double('d', [-2.5]), text('t', [null]), text('u', [''])] };
    expect([...renderCsv(numbers)].join('')).toBe('d,t,u\r\n-2.5,,""\r\n');
  });

  it('is read back by the engine as it was', async () => {
    const store = await openDuckDbStore(IN_MEMORY);
    const folder = join(dir, '..', 'csv');
    mkdirSync(folder);
    const cell = fc.option(
      fc.string({ maxLength: 12 }).filter((value) => !/^[=+\-@\t\r\n]|[\0]/.test(value)),
      { nil: null },
    );
    await fc.assert(
      fc.asyncProperty(fc.array(fc.tuple(cell, NUMBER), { minLength: 1 }), async (rows) => {
        const data = {
          rowCount: rows.length,
          columns: [
            text(
              't',
              rows.map(([value]) => value),
            ),
            double(
              'd',
              rows.map(([, value]) => value),
            ),
          ],
        };
        const file = join(folder, 'a.csv');
        writeFileSync(file, [...renderCsv(data)].join(''));
        const back = await store.query(
          `SELECT * FROM read_csv(${quoteText(file)}, header = true, delim = ',', quote = '"', escape = '"', auto_detect = false,
            new_line = '\\r\\n', parallel = false, columns = {t: 'VARCHAR', d: 'DOUBLE'}, nullstr = '', allow_quoted_nulls = false)`,
        );
        expect(back.columns[0]!.values).toEqual(data.columns[0]!.values);
        expect(back.columns[1]!.values).toEqual(data.columns[1]!.values);
      }),
      { numRuns: 60 },
    );
    await store.close();
  });
});

describe('table as json and parquet', () => {
  it('gives an array of objects with nulls', async () => {
    const rows = JSON.parse(await textOf({ format: 'json' }));
    expect(rows).toHaveLength(3);
    expect(Object.keys(rows[0])).toEqual(columnsOf('fielders'));
    expect(rows[1]).toMatchObject({
      chances: 1 / 3,
      net_outs: 0.1 + 0.2,
      reach_outs: null,
      name: 'Bo, "the Hand" Ray',
    });
    expect(JSON.parse(await textOf({ format: 'json', season: 1999 }))).toEqual([]);
  });

  it('carries many rows in chunks', async () => {
    const many = await temporaryBook(inventedPlays(4100));
    await many.book.close();
    const answer = await ask({ book: many.dir, name: 'plays', format: 'json' });
    const chunks = [...answer.chunks];
    expect(chunks.length).toBeGreaterThan(3);
    const ids = JSON.parse(chunks.join('')).map((row: { play_id: string }) => row.play_id);
    expect(new Set(ids).size).toBe(4100);
    const csv = await textOf({ book: many.dir, name: 'plays', format: 'csv' });
    expect(csv.split('\r\n')).toHaveLength(4102);
    await many.remove();
  });

  it('writes a whole file or none', async () => {
    const folder = join(dir, '..', 'out');
    mkdirSync(folder);
    for (const format of ['parquet', 'csv', 'json', 'text'] as const) {
      const out = join(folder, `o'clock.${format}`);
      const answer = await ask({ format, out });
      expect(answer).toMatchObject({ rowCount: 3, shownCount: 3, out });
      expect([...answer.chunks]).toEqual([]);
      if (format !== 'parquet') expect(readFileSync(out, 'utf8')).toBe(await textOf({ format }));
    }
    const store = await openDuckDbStore(IN_MEMORY);
    const [row] = await store.rows(
      `SELECT count(*) AS n, max(net_outs) AS most, typeof(any_value(season)) AS season_type
       FROM ${quoteText(join(folder, "o'clock.parquet"))}`,
    );
    expect(row).toEqual({ n: 3, most: 12.125, season_type: 'INTEGER' });
    await store.close();
    expect(readdirSync(folder).filter((file) => file.includes('draft'))).toEqual([]);
  });

  it.each(['csv', 'parquet'] as const)('says why a file cannot be written (%s)', async (format) => {
    const missing = join(dir, '..', 'nowhere', 'a');
    await expect(ask({ format, out: missing })).rejects.toMatchObject(refusal(/its folder does not exist/, /--out/));
    const taken = join(dir, '..', `taken-${format}`);
    mkdirSync(taken);
    await expect(ask({ format, out: taken })).rejects.toMatchObject(refusal(/it is a folder/, /--out/));
    expect(existsSync(taken)).toBe(true);
  });

  it('leaves the book free', async () => {
    await ask({ format: 'csv' });
    await (await openBook(dir, { access: 'write', command: 'test', now: TEST_NOW })).close();
  });
});
