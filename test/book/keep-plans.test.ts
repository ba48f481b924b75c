import { afterEach, beforeEach, expect, it } from 'vitest';
import { keepPlans } from '../../src/book/keep-plans.ts';
import { type Book, openBook } from '../../src/book/open-book.ts';
import { TEST_NOW, type TemporaryFolder, temporaryFolder } from '../helpers/temporary-book.ts';

let folder: TemporaryFolder;
let book: Book;
beforeEach(async () => {
  folder = temporaryFolder();
  book = await openBook(folder.path, { access: 'create', command: 'test', now: TEST_NOW });
});
afterEach(async () => {
  await book.close();
  folder.remove();
});

const keep = (ids: string[], build: string) =>
  keepPlans(book, {
    plans: {
      rowCount: ids.length,
      columns: [
        { name: 'plan_id', type: 'text', values: ids },
        { name: 'build_id', type: 'text', values: ids.map(() => build) },
      ],
    },
    starts: {
      rowCount: 2 * ids.length,
      columns: [
        { name: 'plan_id', type: 'text', values: ids.flatMap((id) => [id, id]) },
        { name: 'position', type: 'integer', values: Int32Array.from(ids.flatMap(() => [3, 4])) },
      ],
    },
  });
const builds = async () =>
  (await book.store.rows('SELECT plan_id, build_id FROM plans ORDER BY plan_id')).map(Object.values);
const startCount = async () => (await book.store.rows('SELECT count(*) AS n FROM plan_starts'))[0]!.n;

it('replaces a plan by its id and leaves the others, however often it is told', async () => {
  await keep(['a', "b'"], '1');
  await keep(["b'", 'c'], '2');
  await keep(["b'", 'c'], '2');
  expect(await builds()).toEqual([
    ['a', '1'],
    ["b'", '2'],
    ['c', '2'],
  ]);
  expect(await startCount()).toBe(6);
});

it('keeps all or nothing', async () => {
  await keep(['a'], '1');
  const bad = { rowCount: 1, columns: [{ name: 'nonsense', type: 'text', values: ['x'] }] } as const;
  const good = { rowCount: 1, columns: [{ name: 'plan_id', type: 'text', values: ['a'] }] } as const;
  await expect(keepPlans(book, { plans: good, starts: bad })).rejects.toThrow();
  expect(await builds()).toEqual([['a', '1']]);
  expect(await startCount()).toBe(2);
});
