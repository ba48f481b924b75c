import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openBook } from '../../src/book/open-book.ts';
import { readPeople } from '../../src/book/read-people.ts';
import { readPlayTable } from '../../src/book/read-play-table.ts';
import { readModelFile } from '../../src/book/replace-results.ts';
import { build } from '../../src/commands/build.ts';
import { unpackBuild, unpackRatingModels } from '../../src/commands/build-file.ts';
import { intake } from '../../src/commands/intake.ts';
import { scoreAndTabulate } from '../../src/commands/score-and-tabulate.ts';
import { selectPlays } from '../../src/commands/score-book.ts';
import { simulate } from '../../src/commands/simulate.ts';
import { update } from '../../src/commands/update.ts';
import { SILENT } from '../../src/progress.ts';
import { TEST_NOW, type TemporaryFolder, temporaryFolder } from '../helpers/temporary-book.ts';

const effects = { progress: SILENT, now: TEST_NOW };
/** Rows of games from this number on are the season's last weeks. */
const LAST_WEEKS = '2031-0017';

let folder: TemporaryFolder;
let book: string;
let later: string;

/** Parts the files of a league: rows of a play before LAST_WEEKS stay, the rest go to a folder of their own. */
function part(files: string, rest: string): void {
  mkdirSync(rest);
  for (const name of ['plays-2031.csv', 'starts-2031.csv']) {
    const [header, ...lines] = readFileSync(join(files, name), 'utf8').trimEnd().split('\n');
    const at = header!.split(',').indexOf('play_id');
    const isLate = (line: string) => line.split(',')[at]!.slice(0, LAST_WEEKS.length) >= LAST_WEEKS;
    writeFileSync(join(files, name), `${[header, ...lines.filter((line) => !isLate(line))].join('\n')}\n`);
    writeFileSync(join(rest, name), `${[header, ...lines.filter(isLate)].join('\n')}\n`);
  }
  for (const name of ['people.csv', 'field_time.csv', 'mapping.yaml']) cpSync(join(files, name), join(rest, name));
}

const open = (dir: string) => openBook(dir, { access: 'read', command: 'test', now: TEST_NOW });

async function tablesOf(dir: string) {
  const opened = await open(dir);
  try {
    const read = (table: string) => opened.store.query(`SELECT * FROM ${table}`);
    return { marks: await read('marks'), entries: await read('entries'), fielders: await read('fielders') };
  } finally {
    await opened.close();
  }
}

beforeAll(async () => {
  folder = temporaryFolder();
  const files = join(folder.path, 'files');
  later = join(folder.path, 'later');
  book = join(folder.path, 'book');
  await simulate({ out: files, seasons: 1, teams: 4, seed: 6, ballsPerSeason: 1000 }, { progress: SILENT });
  part(files, later);
  await intake({ book, mapping: join(files, 'mapping.yaml') }, effects);
});
afterAll(() => folder.remove());

it('refuses a book that was never built, and says what to do', async () => {
  await expect(update({ book }, effects)).rejects.toMatchObject({
    kind: 'book',
    message: expect.stringMatching(/has not been built/),
    remedy: expect.stringContaining('leatherbook build'),
  });
});

it("brings a season's last weeks in with the models as they are: the same as scoring all of it with them, and balanced", async () => {
  await build({ book, runs: 'neutral', window: 'rolling', draws: 24, seed: 3, replicates: 100 }, effects);
  const before = await tablesOf(book);
  await intake({ book, mapping: join(later, 'mapping.yaml') }, effects);

  // An update that is stopped on its way leaves the results of the build.
  const stop = { ...SILENT, stage: (name: string) => name === 'entries' && fail() };
  const fail = () => {
    throw new Error('stopped');
  };
  await expect(update({ book }, { progress: stop as never, now: TEST_NOW })).rejects.toThrow('stopped');
  expect(await tablesOf(book)).toEqual(before);

  const opened = await open(book);
  const read = (name: string) => readModelFile(opened, name);
  const { models, draws } = await unpackBuild(read);
  const forRatings = await unpackRatingModels(read);
  const plays = selectPlays(await readPlayTable(opened));
  const people = await readPeople(opened);
  await opened.close();
  const scored = await scoreAndTabulate(
    plays,
    { ...models, forRatings },
    { runs: 'neutral', draws, bootstrap: { replicates: 100, seed: 3 }, threads: 1 },
    people,
    SILENT,
  );

  const report = await update({ book }, effects);
  expect(report.fittedPlays).toBe(before.marks.rowCount);
  expect(report.newPlays).toBe(scored.tables.marks!.rowCount - before.marks.rowCount);
  expect(report.newPlays).toBeGreaterThan(80);
  const after = await tablesOf(book);
  for (const [name, table] of Object.entries(after)) {
    const wanted = scored.tables[name]!;
    expect(table.rowCount, name).toBe(wanted.rowCount);
    for (const { name: column, values } of wanted.columns) {
      const found = table.columns.find((own) => own.name === column)!;
      expect(Array.from(found.values as Float64Array), `${name}.${column}`).toEqual(Array.from(values as Float64Array));
    }
  }
  const again = await open(book);
  for (const { kind, outs } of await again.store.rows('SELECT kind, sum(outs) AS outs FROM entries GROUP BY kind'))
    expect(Math.abs(Number(outs)), String(kind)).toBeLessThan(1e-6);
  await again.close();

  // Nothing new: the same results once more, and still fitted on as many plays as the build was.
  const second = await update({ book }, effects);
  expect([second.newPlays, second.fittedPlays]).toEqual([0, before.marks.rowCount]);
  expect(await tablesOf(book)).toEqual(after);
});
