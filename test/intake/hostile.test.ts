import fc from 'fast-check';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { IN_MEMORY, openDuckDbStore } from '../../src/book/duckdb-store.ts';
import type { Store } from '../../src/book/store.ts';
import { ExpectedFailure } from '../../src/expected-failure.ts';
import { describeRowFault } from '../../src/intake/faults.ts';
import { inspectSource } from '../../src/intake/inspect-source.ts';
import { parseMapping } from '../../src/intake/read-mapping.ts';
import { createStage } from '../../src/intake/stage.ts';
import { stageFile } from '../../src/intake/stage-file.ts';
import { csv, MAPPING, playsCsv, type Workspace, workspace } from './workspace.ts';

/** Texts that would do harm if they reached the database as anything but texts. */
const HOSTILE = [
  "'; DROP TABLE plays; --",
  '"; DROP TABLE plays; --',
  "') OR 1=1 --",
  "a'b",
  'a"b',
  'c0',
  's0',
  '$$',
  '\\',
  "E'\\x27'",
  '{x}',
  '/*',
];

let at: Workspace;
let store: Store;
beforeAll(async () => {
  store = await openDuckDbStore(IN_MEMORY);
});
afterAll(() => store.close());
beforeEach(() => {
  at = workspace();
});
afterEach(() => at.remove());

test('names of columns, words, formats, constants and separators stay what they are', async () => {
  const text = fc.oneof(
    fc.constantFrom(...HOSTILE),
    fc.string({ unit: fc.constantFrom(...'\'";-)(%\\$ab'.split('')), minLength: 1, maxLength: 6 }),
  );
  const word = text.filter((name) => name.trim() === name && name !== '');
  await fc.assert(
    fc.asyncProperty(word, word, word, word, fc.boolean(), async (key, name, cell, separator, json) => {
      fc.pre(key !== name);
      const rows = [
        { [key]: cell, [name]: '4.5' },
        { [key]: 'x', [name]: 'y' },
      ];
      const path = at.write('h.txt', json ? rows.map((row) => JSON.stringify(row)).join('\n') : csv([key, name], rows));
      const mapping = parseMapping(
        JSON.stringify({
          tables: {
            people: {
              files: ['h.txt'],
              empty: [`not ${separator}`],
              columns: {
                person_id: { join: [key, key], with: separator },
                name: { from: key, values: { [cell]: separator, x: 'other' } },
                home_to_first_s: { expr: `1 * ${JSON.stringify(name)}` },
              },
            },
          },
        }),
        'm.yaml',
      );
      const section = mapping.sections[0]!;
      await createStage(store, 'people');
      const source = await inspectSource(path, 'h.txt', { ...section.files[0], ...(json ? {} : { delimiter: ',' }) });
      await stageFile(store, section, source, at.path);
      const found = await store.rows('SELECT * FROM stage_people ORDER BY rowid');
      expect(found[0]).toMatchObject({
        person_id: `${cell}${separator}${cell}`,
        name: separator,
        home_to_first_s: 4.5,
        fault: null,
      });
      expect(describeRowFault(section, 0, String(found[1]!.fault)).reason).toContain("'y' is not a number");
    }),
    { numRuns: 60 },
  );
}, 60_000);

test('names of files with quotes, brackets and blanks are read, shown and kept', async () => {
  const name = "it's [2031] a 'test'; DROP TABLE plays.csv";
  at.write(name, playsCsv([{}, { play_id: 'p2', outs_made: '9' }]));
  const mapping = MAPPING.replace('[plays.csv]', `[${JSON.stringify(name)}]`);
  expect(await at.intake(mapping)).toMatchObject({ loaded: 1, setAside: 1 });
  expect(await at.intake(mapping)).toMatchObject({ loaded: 1, setAside: 1 });
  expect(await at.rows('SELECT file, count(*)::INTEGER AS n FROM set_aside GROUP BY file')).toEqual([
    { file: name, n: 1 },
  ]);
});

test('a pattern that the engine does not know is told before anything is read', async () => {
  at.write('plays.csv', playsCsv([{}]));
  const thrown = await at
    .intake(`${MAPPING}      park: {from: play_id, pattern: "p(?=1)"}\n`)
    .catch((reason: unknown) => reason);
  expect(thrown).toBeInstanceOf(ExpectedFailure);
  expect((thrown as ExpectedFailure).message).toMatch(/tables\.plays\.park: the pattern 'p\(\?=1\)' cannot be used/);
});

test('cells that a spreadsheet would run are kept as they are', async () => {
  at.write('plays.csv', playsCsv([{ batting_team: '=1+1' }, { play_id: '@SUM(A1)', outs_made: '=9' }]));
  await at.intake(MAPPING);
  expect(await at.rows('SELECT batting_team FROM plays')).toEqual([{ batting_team: '=1+1' }]);
  expect((await at.rows('SELECT text FROM set_aside'))[0]!.text).toMatch(/^@SUM\(A1\),/);
});
