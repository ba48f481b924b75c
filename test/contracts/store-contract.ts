import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Column, type ColumnTable, EMPTY_BOOLEAN, type Store } from '../../src/book/store.ts';

export interface OpenStore {
  readonly store: Store;
  remove(): Promise<void>;
}

const CREATE = 'CREATE TABLE things (t VARCHAR, i INTEGER, d DOUBLE, b BOOLEAN, day DATE)';

const named = (table: ColumnTable, name: string): Column => table.columns.find((column) => column.name === name)!;

/** Rows of every kind, with and without empty cells. */
const rowsOf = fc.array(
  fc.record({
    t: fc.option(fc.string({ unit: 'grapheme', maxLength: 40 }), { nil: null }),
    i: fc.option(fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 }), { nil: null }),
    d: fc.option(fc.double({ noNaN: true, noDefaultInfinity: true }), { nil: null }),
    b: fc.option(fc.boolean(), { nil: null }),
    day: fc.option(fc.integer({ min: -40_000, max: 60_000 }), { nil: null }),
  }),
  { maxLength: 60 },
);

const isoOf = (day: number) => new Date(day * 86_400_000).toISOString().slice(0, 10);

/** What every implementation of Store must do; run on each of them. */
export function describeStore(label: string, open: () => Promise<OpenStore>): void {
  describe(`store contract: ${label}`, () => {
    let opened: OpenStore;
    let store: Store;
    beforeEach(async () => {
      opened = await open();
      store = opened.store;
    });
    afterEach(async () => {
      await opened.remove();
    });

    it('gives back what was appended, cell by cell, in order', async () => {
      await store.run(CREATE);
      await fc.assert(
        fc.asyncProperty(rowsOf, async (rows) => {
          await store.run('DELETE FROM things');
          await store.append('things', {
            rowCount: rows.length,
            columns: [
              { name: 't', type: 'text', values: rows.map(({ t }) => t) },
              { name: 'i', type: 'integer', values: Float64Array.from(rows, ({ i }) => i ?? Number.NaN) },
              { name: 'd', type: 'double', values: Float64Array.from(rows, ({ d }) => d ?? Number.NaN) },
              {
                name: 'b',
                type: 'boolean',
                values: Uint8Array.from(rows, ({ b }) => (b === null ? EMPTY_BOOLEAN : Number(b))),
              },
              { name: 'day', type: 'date', values: rows.map(({ day }) => (day === null ? null : isoOf(day))) },
            ],
          });
          const expected = rows.map((row) => ({ ...row, day: row.day === null ? null : isoOf(row.day) }));
          expect(await store.rows('SELECT * FROM things')).toEqual(expected);
        }),
        { numRuns: 40 },
      );
    });

    it('keeps every value across many chunks, and the type of each column', async () => {
      const rowCount = 10_001;
      await store.run(CREATE);
      await store.append('things', {
        rowCount,
        columns: [
          {
            name: 'd',
            type: 'double',
            values: Float64Array.from({ length: rowCount }, (_, row) => (row % 7 ? row / 3 : Number.NaN)),
          },
          { name: 'i', type: 'integer', values: Int32Array.from({ length: rowCount }, (_, row) => row * 3 - 7) },
          {
            name: 't',
            type: 'text',
            values: Array.from({ length: rowCount }, (_, row) => (row % 5 ? `${'x'.repeat(row % 30)}${row}` : null)),
          },
        ],
      });
      const table = await store.query('SELECT * FROM things ORDER BY i');
      expect(table.rowCount).toBe(rowCount);
      expect(named(table, 'i').values).toBeInstanceOf(Int32Array);
      expect(named(table, 'd').values).toBeInstanceOf(Float64Array);
      const every = <T>(value: (row: number) => T) => Array.from({ length: rowCount }, (_, row) => value(row));
      expect([...named(table, 'i').values]).toEqual(every((row) => row * 3 - 7));
      expect([...named(table, 'd').values]).toEqual(every((row) => (row % 7 ? row / 3 : Number.NaN)));
      expect(named(table, 't').values).toEqual(every((row) => (row % 5 ? `${'x'.repeat(row % 30)}${row}` : null)));
      expect(named(table, 'b').values).toEqual(new Uint8Array(rowCount).fill(EMPTY_BOOLEAN));
      expect(named(table, 'day').values).toEqual(every(() => null));
    });

    it('takes numbers that lie in memory shared between threads', async () => {
      await store.run(CREATE);
      const shared = new Float64Array(new SharedArrayBuffer(24));
      shared.set([1, Number.NaN, 3]);
      await store.append('things', { rowCount: 3, columns: [{ name: 'd', type: 'double', values: shared }] });
      expect(await store.rows('SELECT d FROM things')).toEqual([{ d: 1 }, { d: null }, { d: 3 }]);
    });

    it('keeps texts of every length with zero bytes and letters of many bytes in them', async () => {
      await store.run(CREATE);
      const values = ['', 'a\0b', 'twelve bytes', 'thirteen byte', 'longer than twelve bytes\0and more', 'é\u{1F9E4}'];
      await store.append('things', { rowCount: values.length, columns: [{ name: 't', type: 'text', values }] });
      expect((await store.query('SELECT t FROM things')).columns[0]!.values).toEqual(values);
    });

    it('writes a part of a longer array from its own first value', async () => {
      await store.run(CREATE);
      const values = new Float64Array([9, 1, 2, 9]).subarray(1, 3);
      await store.append('things', { rowCount: 2, columns: [{ name: 'd', type: 'double', values }] });
      expect(await store.rows('SELECT d FROM things')).toEqual([{ d: 1 }, { d: 2 }]);
    });

    it('turns foreign number types into doubles and refuses one that a double cannot hold', async () => {
      const [row] = await store.rows(
        `SELECT count(*) AS n, sum(v) AS s, 1.25::DECIMAL(6, 2) AS c, 3::UTINYINT AS u, 0.5::FLOAT AS f, NULL::BIGINT AS e
         FROM (VALUES (1), (2)) AS t(v)`,
      );
      expect(row).toEqual({ n: 2, s: 3, c: 1.25, u: 3, f: 0.5, e: null });
      await expect(store.query('SELECT 9007199254740993::BIGINT AS big')).rejects.toThrow(/does not fit a double/);
    });

    it('gives an empty result its columns', async () => {
      await store.run(CREATE);
      const table = await store.query('SELECT * FROM things');
      expect(table.rowCount).toBe(0);
      expect(table.columns.map(({ name, type }) => [name, type])).toEqual([
        ['t', 'text'],
        ['i', 'integer'],
        ['d', 'double'],
        ['b', 'boolean'],
        ['day', 'date'],
      ]);
    });

    it('counts the rows that a statement changed', async () => {
      await store.run(CREATE);
      expect(await store.run('INSERT INTO things (i) VALUES (1), (2), (3)')).toBe(3);
      expect(await store.run('DELETE FROM things WHERE i > 1')).toBe(2);
    });

    it('undoes all of a transaction that throws, appended rows and new tables too', async () => {
      await store.run(CREATE);
      await store.run('INSERT INTO things (i) VALUES (1)');
      const broken = store.transaction(async () => {
        await store.run('DELETE FROM things');
        await store.append('things', {
          rowCount: 1,
          columns: [{ name: 'i', type: 'integer', values: Int32Array.of(5) }],
        });
        await store.run('CREATE TABLE more (x INTEGER)');
        throw new Error('stop here');
      });
      await expect(broken).rejects.toThrow('stop here');
      expect(await store.rows('SELECT i FROM things')).toEqual([{ i: 1 }]);
      await expect(store.rows('SELECT * FROM more')).rejects.toThrow(/more/);
    });

    it('keeps a transaction that returns, hands its answer on, and is free for the next', async () => {
      await store.run(CREATE);
      const answer = await store.transaction(async () => {
        await store.append('things', {
          rowCount: 1,
          columns: [{ name: 'i', type: 'integer', values: Int32Array.of(5) }],
        });
        return 'done';
      });
      expect(answer).toBe('done');
      await store.transaction(async () => store.run('INSERT INTO things (i) VALUES (6)'));
      expect(await store.rows('SELECT i FROM things ORDER BY i')).toEqual([{ i: 5 }, { i: 6 }]);
    });

    it('refuses a transaction inside a transaction', async () => {
      await expect(store.transaction(() => store.transaction(async () => 1))).rejects.toThrow(/do not nest/);
      expect(await store.rows('SELECT 1 AS one')).toEqual([{ one: 1 }]);
    });

    it('serves calls made at once one after the other', async () => {
      const tables = await Promise.all(
        [3000, 5000, 7000].map((count) => store.query(`SELECT range::INTEGER AS v FROM range(${count})`)),
      );
      expect(tables.map(({ rowCount }) => rowCount)).toEqual([3000, 5000, 7000]);
      expect(tables.map(({ columns, rowCount }) => columns[0]!.values[rowCount - 1])).toEqual([2999, 4999, 6999]);
    });

    it.each<[string, ColumnTable, RegExp]>([
      ['an unknown column', { rowCount: 1, columns: [{ name: 'zz', type: 'text', values: ['a'] }] }, /no column zz/],
      [
        'another type',
        { rowCount: 1, columns: [{ name: 'i', type: 'double', values: Float64Array.of(1) }] },
        /things\.i is integer/,
      ],
      ['too few values', { rowCount: 2, columns: [{ name: 't', type: 'text', values: ['a'] }] }, /1 values for 2 rows/],
      [
        'half a whole number',
        { rowCount: 1, columns: [{ name: 'i', type: 'integer', values: Float64Array.of(0.5) }] },
        /whole numbers/,
      ],
      [
        'an impossible date',
        { rowCount: 1, columns: [{ name: 'day', type: 'date', values: ['2031-02-41'] }] },
        /YYYY-MM-DD/,
      ],
    ])('refuses %s and writes nothing', async (_what, table, message) => {
      await store.run(CREATE);
      await expect(store.append('things', table)).rejects.toThrow(message);
      expect(await store.rows('SELECT count(*) AS n FROM things')).toEqual([{ n: 0 }]);
    });

    it('is closed after close, once or twice', async () => {
      await store.close();
      await store.close();
      await expect(store.rows('SELECT 1')).rejects.toThrow(/closed/);
    });
  });
}
