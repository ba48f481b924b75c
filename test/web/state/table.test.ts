import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { addressOf, changedAddress, readPlace } from '../../../web/state/address.ts';
import { movedBy, rangeBetween } from '../../../web/state/table/grid-keys.ts';
import { LocalRows } from '../../../web/state/table/local-rows.ts';
import { narrowRows } from '../../../web/state/table/narrow-rows.ts';
import { RemoteRows } from '../../../web/state/table/remote-rows.ts';
import { nextSort, readSort, sortWord } from '../../../web/state/table/row-source.ts';
import { scrolledHeight, scrollToRow, windowAt } from '../../../web/state/table/virtual-window.ts';

const measures = fc.record({
  rowCount: fc.integer({ min: 1, max: 3_000_000 }),
  rowPx: fc.integer({ min: 20, max: 40 }),
  viewPx: fc.integer({ min: 50, max: 2000 }),
});

describe('a window of rows', () => {
  it('holds what is seen, at every place of the bar, and not much more', () => {
    fc.assert(
      fc.property(measures, fc.double({ min: 0, max: 1, noNaN: true }), (size, share) => {
        const free = Math.max(0, scrolledHeight(size) - size.viewPx);
        const scrollPx = share * free;
        const { first, end, topPx, heightPx } = windowAt(size, scrollPx);
        expect(heightPx).toBeLessThanOrEqual(8_000_000);
        expect(end - first).toBeLessThanOrEqual(Math.ceil(size.viewPx / size.rowPx) + 10);
        expect(end).toBeLessThanOrEqual(size.rowCount);
        // The first row drawn begins at or above the upper edge, the last one ends at or below the lower, if there are so many.
        expect(first === 0 || topPx <= scrollPx + 0.01).toBe(true);
        const bottomPx = topPx + (end - first) * size.rowPx;
        expect(end === size.rowCount || bottomPx >= scrollPx + size.viewPx - 0.01).toBe(true);
      }),
    );
  });

  it('ends with the last row at the lower edge', () => {
    fc.assert(
      fc.property(measures, (size) => {
        fc.pre(size.rowCount * size.rowPx > size.viewPx);
        const scrollPx = scrolledHeight(size) - size.viewPx;
        fc.pre(scrollPx > 0);
        const { first, end, topPx } = windowAt(size, scrollPx);
        expect(end).toBe(size.rowCount);
        expect(topPx + (end - first) * size.rowPx).toBeCloseTo(scrollPx + size.viewPx, 1);
      }),
    );
  });

  it('scrolls to a row by as little as shows it', () => {
    fc.assert(
      fc.property(
        measures,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (size, at, to) => {
          fc.pre(size.rowCount * size.rowPx > size.viewPx && size.viewPx > size.rowPx);
          const scrollPx = at * (scrolledHeight(size) - size.viewPx);
          const row = Math.min(size.rowCount - 1, Math.floor(to * size.rowCount));
          const wanted = scrollToRow(size, row, scrollPx);
          const { first, topPx } = windowAt(size, wanted);
          const rowTop = topPx + (row - first) * size.rowPx;
          expect(rowTop).toBeGreaterThanOrEqual(wanted - 0.05);
          expect(rowTop + size.rowPx).toBeLessThanOrEqual(wanted + size.viewPx + 0.05);
          expect(scrollToRow(size, row, wanted)).toBeCloseTo(wanted, 3);
        },
      ),
    );
  });
});

test('keys never leave the table, and a range knows no order of its corners', () => {
  const size = { rowCount: 7, columnCount: 3, pageRows: 4 };
  const keys = ['ArrowUp', 'ArrowDown', 'ArrowLeft', 'ArrowRight', 'Home', 'End', 'PageUp', 'PageDown'];
  fc.assert(
    fc.property(fc.array(fc.tuple(fc.constantFrom(...keys), fc.boolean())), (presses) => {
      let place = { row: -1, column: 0 };
      for (const [key, isFar] of presses) place = movedBy(key, isFar, place, size)!;
      expect(place.row).toBeGreaterThanOrEqual(-1);
      expect(place.row).toBeLessThan(7);
      expect(place.column).toBeGreaterThanOrEqual(0);
      expect(place.column).toBeLessThan(3);
    }),
  );
  expect(movedBy('x', false, { row: 0, column: 0 }, size)).toBe(null);
  const [a, b] = [
    { row: 5, column: 0 },
    { row: 2, column: 2 },
  ];
  expect(rangeBetween(a, b)).toEqual(rangeBetween(b, a));
  expect(rangeBetween(a, b)).toEqual({ firstRow: 2, lastRow: 5, firstColumn: 0, lastColumn: 2 });
});

test('rows in memory sort with empty cells last either way, and keep the given order of ties', async () => {
  const rows = [
    { name: 'b', runs: 2, at: 1 },
    { name: null, runs: null, at: 2 },
    { name: 'a', runs: 2, at: 3 },
    { name: 'c', runs: -1, at: 4 },
  ];
  const order = (column: string, descending: boolean) => {
    const source = new LocalRows(rows, { column, descending });
    return rows.map((_, at) => source.row(at)!.at);
  };
  expect(order('runs', true)).toEqual([1, 3, 4, 2]);
  expect(order('runs', false)).toEqual([4, 1, 3, 2]);
  expect(order('name', true)).toEqual([4, 1, 3, 2]);
  const source = new LocalRows([
    { name: '=cmd', runs: 0.1 },
    { name: 'a,"b"', runs: null },
  ]);
  expect(await source.asTabText(['name', 'runs'], 0, 1)).toBe("name\truns\r\n'=cmd\t0.1\r\n");
  expect(source.asCsv(['name', 'runs'])).toEqual({ text: 'name,runs\r\n\'=cmd,0.1\r\n"a,""b""",\r\n' });
});

test('rows are narrowed to those that say every word, in any cell and case', () => {
  const rows = [
    { name: 'Ilva Brandt', runs: '\u22120.4' },
    { name: 'Teo Marsh', runs: '+0.4' },
    { name: 'Brandt Osterhagen', runs: '' },
  ];
  const narrowed = (text: string) =>
    narrowRows(rows, text, ({ name, runs }) => [String(name), String(runs)]).map((row) =>
      rows.indexOf(row as (typeof rows)[0]),
    );
  expect(narrowed('  ')).toEqual([0, 1, 2]);
  expect(narrowed('brandt')).toEqual([0, 2]);
  expect(narrowed('0.4 BRANDT')).toEqual([0]);
  // A minus as a keyboard has it.
  expect(narrowed('-0.4')).toEqual([0]);
  expect(narrowed('brandtmarsh')).toEqual([]);
});

test('rows of the server come in pieces; what went out of sight is not waited for, what failed is asked for when told', async () => {
  const asked: string[] = [];
  const aborted: string[] = [];
  let isBroken = false;
  const source = new RemoteRows(
    { name: 'entries', words: { season: '2031' } },
    {
      askText: async (address) => address,
      askTable: (address, signal) => {
        asked.push(address);
        return new Promise((resolve, reject) => {
          signal.addEventListener('abort', () => aborted.push(address));
          const from = Number(new URLSearchParams(address.split('?')[1]).get('from'));
          if (isBroken) reject(new Error('gone'));
          else if (from < 1000)
            resolve({
              name: 'entries',
              version: '1',
              row_count: 5000,
              from,
              columns: [{ name: 'at', type: 'integer', values: Array.from({ length: 200 }, (_, at) => from + at) }],
            });
        });
      },
    },
  );
  let changes = 0;
  source.onChange = () => {
    changes += 1;
  };
  expect([source.rowCount, source.row(0)]).toEqual([null, undefined]);
  source.need(150, 250);
  await Promise.resolve();
  await new Promise((resolve) => setTimeout(resolve));
  expect(asked).toEqual([
    '/api/table/entries?season=2031&from=0&count=200',
    '/api/table/entries?season=2031&from=200&count=200',
  ]);
  expect([source.rowCount, source.row(0)?.at, source.row(399)?.at, changes]).toEqual([5000, 0, 399, 2]);
  source.need(2000, 2050);
  source.need(0, 50);
  expect(aborted).toEqual(['/api/table/entries?season=2031&from=2000&count=200']);
  isBroken = true;
  source.need(600, 620);
  await new Promise((resolve) => setTimeout(resolve));
  expect(source.failure).toBe('gone');
  const count = asked.length;
  source.need(600, 620);
  expect(asked.length).toBe(count);
  isBroken = false;
  source.retry();
  source.need(600, 620);
  await new Promise((resolve) => setTimeout(resolve));
  expect([source.failure, source.row(610)?.at]).toEqual([null, 610]);
  expect(source.asCsv(['at']).address).toBe('/api/download/entries?season=2031&columns=at');
});

test('addresses read back what was written, names with slashes and marks too', () => {
  const words = fc.string({ minLength: 1, unit: 'grapheme' });
  fc.assert(
    fc.property(fc.array(words), fc.dictionary(words, words), (path, filters) => {
      const place = readPlace(addressOf(path, filters));
      expect(place.path).toEqual(path);
      expect(Object.fromEntries(place.filters)).toEqual({ ...filters });
    }),
  );
  const place = readPlace('/defenders/p%2F1?season=2031&team=A%26B#there');
  expect(place.path).toEqual(['defenders', 'p/1']);
  expect(changedAddress(place, { season: undefined, position: 6 })).toBe('/defenders/p%2F1?team=A%26B&position=6');
  expect(readPlace('/%E0%A4%A').path).toEqual(['%E0%A4%A']);
});

test('a sort is read from the address and turned over by the second click', () => {
  expect(readSort('-net_runs')).toEqual({ column: 'net_runs', descending: true });
  expect([readSort(undefined), readSort(''), readSort('-')]).toEqual([null, null, null]);
  const first = nextSort(null, 'net_runs', true);
  expect([sortWord(first), sortWord(nextSort(first, 'net_runs', true))]).toEqual(['-net_runs', 'net_runs']);
  expect(sortWord(nextSort(first, 'name', false))).toBe('name');
});
