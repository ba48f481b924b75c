import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBook } from '../../src/book/open-book.ts';
import { replaceResults } from '../../src/book/replace-results.ts';
import type { FailureAnswer, TableAnswer } from '../../src/server/answers.ts';
import { createBookSource } from '../../src/server/book-source.ts';
import { createApp } from '../../src/server/create-app.ts';
import { hostPolicy } from '../../src/server/host-policy.ts';
import { Work } from '../../src/server/work/work.ts';
import { inventedPlays } from '../helpers/invented-plays.ts';
import { TEST_NOW, type TemporaryBook, temporaryBook } from '../helpers/temporary-book.ts';

let made: TemporaryBook;
let app: ReturnType<typeof createApp>;

const texts = (name: string, values: string[]) => ({ name, type: 'text' as const, values });
const integers = (name: string, values: number[]) => ({
  name,
  type: 'integer' as const,
  values: Int32Array.from(values),
});
const doubles = (name: string, values: number[]) => ({
  name,
  type: 'double' as const,
  values: Float64Array.from(values),
});

async function writeEntries(runs: number[]): Promise<void> {
  const book = await openBook(made.dir, { access: 'write', command: 'test', now: TEST_NOW });
  const kinds = ['placement', 'reach', 'finish', 'reach'];
  await replaceResults(book, {
    tables: {
      entries: {
        rowCount: 4,
        columns: [
          texts('play_id', ['a', 'b', 'c', "d'; DROP TABLE entries; --"]),
          integers('season', [2031, 2031, 2032, 2032]),
          texts('fielder_id', ['p1', 'p2', 'p1', '=1+1']),
          integers('position', [6, 4, 6, 5]),
          texts('team', ['North', 'South', 'North', 'Tab\tTown']),
          texts('kind', kinds),
          doubles(
            'outs',
            runs.map((value) => value / 0.75),
          ),
          doubles('runs', runs),
        ],
      },
    },
    models: {},
    settings: { runs: 'flat' },
  });
  await book.close();
}

beforeAll(async () => {
  made = await temporaryBook(inventedPlays(60));
  await made.book.close();
  await writeEntries([0.3, -0.25, Number.NaN, 1 / 3]);
  const source = createBookSource(made.dir, { now: TEST_NOW });
  app = createApp({
    workbench: { source, work: new Work(source, TEST_NOW), now: TEST_NOW },
    webFiles: new Map(),
    isOurHost: hostPolicy('127.0.0.1'),
  });
});
afterAll(() => made.remove());

const get = (path: string) => app.request(`http://127.0.0.1${path}`, { headers: { host: '127.0.0.1' } });
const read = async (query: string) => (await (await get(`/api/table/entries?${query}`)).json()) as TableAnswer;
const column = ({ columns }: TableAnswer, name: string) => columns.find((each) => each.name === name)?.values;
const failure = async (path: string) => {
  const answer = await get(path);
  return { status: answer.status, ...((await answer.json()) as FailureAnswer).error };
};

test('a table comes by columns, empty cells as null', async () => {
  const answer = await read('');
  expect(answer).toMatchObject({ name: 'entries', row_count: 4, from: 0 });
  expect(column(answer, 'runs')).toEqual([0.3, -0.25, null, 1 / 3]);
});

test('filters, conditions, search, order, columns and windows', async () => {
  expect(column(await read('season=2031&position=4'), 'play_id')).toEqual(['b']);
  expect(column(await read('team=North&sort=-runs'), 'play_id')).toEqual(['a', 'c']);
  expect(column(await read('kind=reach,finish&sort=-play_id'), 'play_id')).toEqual([
    "d'; DROP TABLE entries; --",
    'c',
    'b',
  ]);
  expect(column(await read('is_kind=reach,finish'), 'play_id')).toEqual([]);
  expect(column(await read('is_team=South'), 'play_id')).toEqual(['b']);
  expect(column(await read('min_runs=0.31'), 'kind')).toEqual(['reach']);
  expect(column(await read('max_runs=0'), 'play_id')).toEqual(['b']);
  expect(column(await read('runs='), 'play_id')).toEqual(['c']);
  expect(column(await read('search=OUTH'), 'play_id')).toEqual(['b']);
  const window = await read('sort=runs&from=1&count=2&columns=play_id,runs');
  expect([window.row_count, window.from]).toEqual([4, 1]);
  expect(window.columns.map(({ name }) => name)).toEqual(['play_id', 'runs']);
  // Empty cells come last either way.
  expect(column(window, 'play_id')).toEqual(['a', "d'; DROP TABLE entries; --"]);
});

test('a text of an address is never taken for SQL', async () => {
  const name = encodeURIComponent("d'; DROP TABLE entries; --");
  expect(column(await read(`play_id=${name}`), 'fielder_id')).toEqual(['=1+1']);
  expect((await read('')).row_count).toBe(4);
  expect(await failure('/api/table/entries?runs%3B%20DROP=1')).toMatchObject({ status: 400, kind: 'usage' });
  expect(await failure('/api/table/entries?sort=runs;DROP')).toMatchObject({ status: 400, kind: 'usage' });
});

test('a wrong question says what is wrong and what to do', async () => {
  expect(await failure('/api/table/nonsense')).toMatchObject({ status: 400, message: 'There is no table "nonsense".' });
  expect((await failure('/api/table/entries?min_runs=many')).message).toBe('min_runs wants a number and got "many".');
  expect((await failure('/api/table/entries?count=1e9')).message).toMatch(/^count wants a whole number from 0 to /);
  expect((await failure('/api/table/entries?min_chances=5')).message).toMatch(/does not go with the table entries/);
  expect((await failure('/api/table/entries?hair=red')).message).toBe(
    'The table entries has no column hair, which hair asks for.',
  );
  expect(await failure('/api/nothing')).toMatchObject({ status: 404, kind: 'missing' });
});

test('a download is CSV and the clipboard tab-separated, both harmless to a spreadsheet', async () => {
  const download = await get('/api/download/entries?columns=play_id,fielder_id,team,runs&season=2032');
  expect(download.headers.get('content-disposition')).toBe('attachment; filename="entries.csv"');
  expect(await download.text()).toBe(
    "play_id,fielder_id,team,runs\r\nc,p1,North,\r\nd'; DROP TABLE entries; --,'=1+1,Tab\tTown,0.3333333333333333\r\n",
  );
  const copied = await get('/api/clipboard/entries?columns=fielder_id,team&season=2032&from=1&count=1');
  expect(await copied.text()).toBe('fielder_id\tteam\r\n\'=1+1\t"Tab\tTown"\r\n');
});

test('a new build is taken up at the next question, and the book stays free between questions', async () => {
  const before = await read('count=1');
  await writeEntries([1, 2, 3, 4]);
  const after = await read('');
  expect(after.version).not.toBe(before.version);
  expect(column(after, 'runs')).toEqual([1, 2, 3, 4]);
});

test('the book tells its seasons, clubs, plays and settings', async () => {
  const book = await (await get('/api/book')).json();
  expect(book).toMatchObject({ plays: 60, seasons: [2030, 2031, 2032], settings: { runs: 'flat' }, behind: null });
});
