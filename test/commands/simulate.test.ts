import { mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { parse } from 'yaml';
import { INCOMING_TABLES } from '../../src/book/schema.ts';
import { simulate } from '../../src/commands/simulate.ts';
import { simulateLeague } from '../../src/league/simulate-league.ts';
import { SILENT } from '../../src/progress.ts';

const SMALL = { seasons: 2, teams: 4, seed: 8, ballsPerSeason: 150 };
let root = '';
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'leatherbook-simulate-'));
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

const run = (out = join(root, 'league'), options = SMALL) => simulate({ out, ...options }, { progress: SILENT });
const lines = (path: string) => readFileSync(path, 'utf8').trimEnd().split('\n');

test('writes every file it names, one row a play, nine a play of starts, and no part files', async () => {
  const { out, files, plays } = await run();
  const found = [...readdirSync(out), ...readdirSync(join(out, 'truth')).map((name) => `truth/${name}`)];
  expect(found.filter((name) => name !== 'truth').sort()).toEqual([...files].sort());
  const rows = (name: string) => lines(join(out, name)).length - 1;
  expect(rows('plays-2031.csv') + rows('plays-2032.csv')).toBe(plays);
  expect(rows('starts-2031.csv')).toBe(9 * rows('plays-2031.csv'));
  const balls = gunzipSync(readFileSync(join(out, 'truth', 'balls.csv.gz'))).toString('utf8');
  expect(balls.trimEnd().split('\n').length - 1).toBe(plays);
});

test('the mapping names every file and column, and each is a column of the contract', async () => {
  const { out } = await run();
  const { tables } = parse(readFileSync(join(out, 'mapping.yaml'), 'utf8'));
  expect(Object.keys(tables)).toEqual(['plays', 'starts', 'people', 'field_time']);
  for (const [name, table] of Object.entries(tables) as [
    keyof typeof INCOMING_TABLES,
    { files: string[]; columns: object },
  ][]) {
    const contract = INCOMING_TABLES[name].columns.map((column) => column.name);
    for (const file of table.files) {
      const header = lines(join(out, file))[0]!.split(',');
      expect(header).toEqual(Object.keys(table.columns));
      expect(header).toEqual(Object.values(table.columns));
      for (const column of header) expect(contract).toContain(column);
    }
    for (const column of INCOMING_TABLES[name].columns)
      if (column.required) expect(Object.keys(table.columns)).toContain(column.name);
  }
});

test('every cell satisfies the contract: words, ranges, required', async () => {
  const { out } = await run();
  for (const [file, name] of [
    ['plays-2031.csv', 'plays'],
    ['starts-2031.csv', 'starts'],
    ['people.csv', 'people'],
    ['field_time.csv', 'field_time'],
  ] as const) {
    const [header, ...rows] = lines(join(out, file)).map((line) => line.split(','));
    for (const row of rows) {
      expect(row.length).toBe(header!.length);
      for (const [k, cell] of row.entries()) {
        const column = INCOMING_TABLES[name].columns.find((one) => one.name === header![k])!;
        if (cell === '') {
          expect(column.required, column.name).toBe(false);
          continue;
        }
        if (column.words) expect(column.words).toContain(cell);
        if (column.type === 'integer') expect(cell).toMatch(/^-?\d+$/);
        if (column.type === 'double') expect(Number(cell)).not.toBeNaN();
        if (column.min !== undefined) expect(Number(cell), column.name).toBeGreaterThanOrEqual(column.min);
        if (column.max !== undefined) expect(Number(cell), column.name).toBeLessThanOrEqual(column.max);
      }
    }
  }
});

test('the same options write the same bytes, and seeds.json computes the league again', async () => {
  const first = await run(join(root, 'a'));
  await run(join(root, 'b'));
  for (const name of first.files) {
    expect(readFileSync(join(root, 'b', name)).equals(readFileSync(join(root, 'a', name))), name).toBe(true);
  }
  const { options } = JSON.parse(readFileSync(join(root, 'a', 'truth', 'seeds.json'), 'utf8'));
  const again = simulateLeague(options);
  expect(again.plays.count).toBe(first.plays);
  expect(lines(join(root, 'a', 'people.csv')).length - 1).toBe(again.people.personId.length);
});

test('a path through a file and a full disk are told with the path, and leave no half file under its name', async () => {
  writeFileSync(join(root, 'file'), '');
  await expect(run(join(root, 'file', 'league'))).rejects.toMatchObject({
    name: 'ExpectedFailure',
    kind: 'usage',
    message: expect.stringContaining(join(root, 'file', 'league')),
  });
  if (process.platform !== 'linux') return;
  const out = join(root, 'full');
  await run(out);
  rmSync(join(out, 'starts-2031.csv'));
  symlinkSync('/dev/full', join(out, 'starts-2031.csv.part'));
  await expect(run(out)).rejects.toMatchObject({
    name: 'ExpectedFailure',
    kind: 'data',
    message: expect.stringMatching(/starts-2031\.csv cannot be written: the disk is full/),
  });
  expect(readdirSync(out).filter((name) => name.startsWith('starts-2031'))).toEqual([]);
});
