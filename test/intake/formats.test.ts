import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { IN_MEMORY, openDuckDbStore } from '../../src/book/duckdb-store.ts';
import type { Store } from '../../src/book/store.ts';
import { inspectSource } from '../../src/intake/inspect-source.ts';
import { parseMapping } from '../../src/intake/read-mapping.ts';
import { createStage } from '../../src/intake/stage.ts';
import { stageFile } from '../../src/intake/stage-file.ts';
import { csv, MAPPING, PLAY_COLUMNS, play, playsCsv, type Workspace, workspace } from './workspace.ts';

let at: Workspace;
beforeEach(() => {
  at = workspace();
});
afterEach(() => at.remove());

const PLAYS = [
  { batting_team: 'Água "Fria"' },
  { play_id: 'p2', batting_team: 'Ilha\ndo Mel' },
  { play_id: 'p3', outs_made: 'x' },
];
const options = (text: string) => MAPPING.replace('files: [plays.csv]', `files: [plays.csv]\n    ${text}`);

test('the same plays in every dress, each file with its own options', async () => {
  type Dress = [
    what: string,
    dress: (text: string) => string | Buffer,
    options?: string,
    line?: number,
    delimiter?: string,
  ];
  const dresses: Dress[] = [
    ['plain', (text) => text],
    ['BOM', (text) => `\ufeff${text}`],
    ['CRLF', (text) => text.replaceAll('\n', '\r\n').replace('Ilha\r\n', 'Ilha\n')],
    ['CR', (text) => text.replaceAll('\n', '\r').replace('Ilha\r', 'Ilha\n')],
    ['mixed line ends', (text) => text.replace('\n', '\r\n')],
    ['no last line end', (text) => text.trimEnd()],
    ['empty lines', (text) => text.replace('\n', '\n\n\n'), '', 7],
    ['gzip', (text) => gzipSync(text)],
    ['semicolons', (text) => text, '', 5, ';'],
    ['tabs', (text) => text, '', 5, '\t'],
    ['bars', (text) => text, '', 5, '|'],
    ['a delimiter of its own', (text) => text, 'delimiter: "~"', 5, '~'],
    ['latin-1', (text) => Buffer.from(text, 'latin1'), 'encoding: latin-1'],
    ['utf-16 with a mark', (text) => Buffer.from(`\ufeff${text}`, 'utf16le')],
    ['utf-16, big end first', (text) => Buffer.from(`\ufeff${text}`, 'utf16le').swap16()],
    ['utf-16 without a mark', (text) => Buffer.from(text, 'utf16le'), 'encoding: utf-16'],
    ['utf-16, gzip', (text) => gzipSync(Buffer.from(`\ufeff${text}`, 'utf16le')), 'encoding: utf-16'],
    ['a delimiter too many at the end of lines', (text) => text.replaceAll('out\n', 'out,\n')],
  ];
  const files = dresses.map(([what, dress, given = '', , delimiter = ','], index) => {
    const rows = PLAYS.map((row, nth) => play({ ...row, play_id: `${what} ${nth}`, game_id: what }));
    at.write(`${index}.csv`, dress(csv(PLAY_COLUMNS, rows, delimiter)));
    return `      - {path: ${index}.csv${given === '' ? '' : `, ${given}`}}`;
  });
  const report = await at.intake(MAPPING.replace('files: [plays.csv]', `files:\n${files.join('\n')}`));
  const teams = await at.rows('SELECT play_id, batting_team FROM plays ORDER BY rowid');
  const aside = await at.rows('SELECT file, line, text FROM set_aside');
  dresses.forEach(([what, , , line = 5], index) => {
    expect(report.files[index], what).toMatchObject({ read: 3, loaded: 2, setAside: 1 });
    expect(teams.slice(2 * index, 2 * index + 2), what).toEqual([
      { play_id: `${what} 0`, batting_team: 'Água "Fria"' },
      { play_id: `${what} 1`, batting_team: 'Ilha\ndo Mel' },
    ]);
    const row = aside.find(({ file }) => file === `${index}.csv`);
    expect(row, what).toMatchObject({ line, text: expect.stringContaining(`${what} 2`) });
  });
});

test('lines that cannot be cut into cells are set aside with line and reason, and the others are loaded', async () => {
  const [header, first] = playsCsv([{}]).split('\n') as [string, string];
  const good = (id: string) => first.replace('p1', id);
  const lines = [
    header,
    good('a'),
    'too,few',
    good('b'),
    `${good('c')},more,cells`,
    good('d').replace('ground', '"ground"x'),
    good('e'),
  ];
  at.write('plays.csv', `${lines.join('\n')}\n${good('f').replace('ground', '"ground')}\n${good('g')}\n`);
  expect(await at.intake(MAPPING)).toMatchObject({ read: 8, loaded: 4, setAside: 4 });
  expect(await at.rows('SELECT line, reason FROM set_aside ORDER BY line')).toEqual([
    { line: 3, reason: `the line has 2 cells and the header ${PLAY_COLUMNS.length}` },
    { line: 5, reason: `the line has ${PLAY_COLUMNS.length + 2} cells and the header ${PLAY_COLUMNS.length}` },
    { line: 6, reason: expect.stringMatching(/goes on after its closing quote/) },
    // Its open quote runs to the next quote, which is inside the next line's team.
    { line: 8, reason: expect.stringMatching(/quote/) },
  ]);
  expect((await at.rows('SELECT play_id FROM plays ORDER BY play_id')).map((row) => row.play_id)).toEqual([
    'a',
    'b',
    'e',
    'g',
  ]);
  const before = await at.contents();
  await at.intake(MAPPING);
  expect(await at.contents()).toBe(before);
});

test('decimal commas, words for empty cells, another quote', async () => {
  const rows = [
    { exit_speed_mph: '90,5', park: 'NA' },
    { play_id: 'p2', exit_speed_mph: '-', launch_angle_deg: 'NA' },
    { play_id: 'p3', exit_speed_mph: '1.000,5' },
  ];
  const text = csv(
    PLAY_COLUMNS,
    rows.map((row) => play({ gather_time_s: '1,5', ...row })),
    ';',
  ).replace('Alders', "'Al;ders'");
  at.write('plays.csv', text);
  expect(await at.intake(options('quote: "\'"\n    empty: [NA, "-"]'))).toMatchObject({
    read: 3,
    loaded: 2,
    setAside: 1,
  });
  expect(
    await at.rows('SELECT exit_speed_mph AS v, launch_angle_deg AS a, batting_team AS t FROM plays ORDER BY play_id'),
  ).toEqual([
    { v: 90.5, a: -5, t: 'Al;ders' },
    { v: null, a: null, t: 'Alders' },
  ]);
  expect(await at.rows('SELECT "column" FROM set_aside')).toEqual([{ column: 'exit_speed_mph' }]);
});

describe('JSON lines', () => {
  const object = (cells: Record<string, unknown>) => JSON.stringify({ ...play(), ...cells });

  test('numbers, texts, true and null; keys missing in some rows; lines that are no object', async () => {
    const lines = [
      object({ exit_speed_mph: 90.25, outs_made: 1, gather_seen: true, pitcher_id: null }),
      '[1, 2]',
      object({ play_id: 'p2', 'odd "key"/~.': 'x', outs_before: 2.0 }),
      '{"play_id": "p3", ',
      '',
      object({ play_id: 'p4', outs_made: 9 }),
    ];
    at.write('plays.csv', `${lines.join('\n')}\n`);
    const mapping = `${MAPPING}      gather_seen: gather_seen\n      park: "odd \\"key\\"/~."\n`;
    expect(await at.intake(mapping)).toMatchObject({ read: 5, loaded: 2, setAside: 3 });
    expect(
      await at.rows('SELECT exit_speed_mph AS v, gather_seen AS g, pitcher_id AS p, park FROM plays ORDER BY play_id'),
    ).toEqual([
      { v: 90.25, g: true, p: null, park: null },
      { v: 90, g: null, p: 'b1', park: 'x' },
    ]);
    expect(await at.rows('SELECT line, reason, text FROM set_aside ORDER BY line')).toEqual([
      { line: 2, reason: 'the line is not a JSON object', text: '[1, 2]' },
      { line: 4, reason: 'the line is not a JSON object', text: lines[3] },
      { line: 6, reason: 'outs_made: 9 is outside the range 0 to 3', text: lines[5] },
    ]);
  });

  test('packed and in UTF-16', async () => {
    at.write(
      'plays.csv',
      gzipSync(Buffer.from(`\ufeff${object({ batting_team: 'Água' })}\n${object({ outs_made: 8 })}\n`, 'utf16le')),
    );
    expect(await at.intake(options('encoding: utf-16'))).toMatchObject({ read: 2, loaded: 1, setAside: 1 });
    expect(await at.rows('SELECT line, text FROM set_aside')).toEqual([{ line: 2, text: object({ outs_made: 8 }) }]);
  });
});

test('Parquet, with types of its own', async () => {
  const store = await openDuckDbStore(IN_MEMORY);
  const values = `SELECT * REPLACE (date::DATE AS date, outs_made::TINYINT AS outs_made, exit_speed_mph::FLOAT AS exit_speed_mph), 'b' AS "odd ""name"`;
  at.write('all.csv', playsCsv([{}, { play_id: 'p2', outs_made: '9' }]));
  await store.run(
    `COPY (${values} FROM read_csv('${join(at.path, 'all.csv')}', all_varchar = true)) TO '${join(at.path, 'plays.csv')}' (FORMAT parquet)`,
  );
  await store.close();
  const mapping = `${MAPPING}      park: 'odd "name'\n`;
  expect(await at.intake(mapping)).toMatchObject({ read: 2, loaded: 1, setAside: 1 });
  expect(await at.rows('SELECT date, exit_speed_mph, outs_made, park FROM plays')).toEqual([
    { date: '2031-04-01', exit_speed_mph: 90, outs_made: 1, park: 'b' },
  ]);
  const [aside] = await at.rows('SELECT line, "column", text FROM set_aside');
  expect(aside).toMatchObject({ line: 2, column: 'outs_made' });
  expect(JSON.parse(String(aside!.text))).toMatchObject({ play_id: 'p2', outs_made: 9 });
});

test('wide starts: a pair of cells for each position, in a frame, one reason a start', async () => {
  const columns = ['No', 'F3', 'X3', 'Y3', 'F6', 'X6', 'Y6'];
  at.write('plays.csv', playsCsv([{}, { play_id: 'p2' }, { play_id: 'p3' }]));
  at.write(
    'wide.csv',
    csv(columns, [
      { No: 'p1', F3: 'b3', X3: '-20', Y3: '30', F6: 'b6', X6: '12', Y6: '43' },
      { No: 'p2', F3: 'b3', F6: 'b6', X6: 'deep', Y6: '43' },
      { No: 'p3', F6: 'b6', X6: '12', Y6: '430' },
      { No: 'p9', F3: 'b3', F6: 'b6' },
    ]),
  );
  const mapping = `frames:\n  cam: {unit: m, x_toward: third_base}\n${MAPPING}  starts:
    files: [wide.csv]
    wide:
      play_id: No
      frame: cam
      positions:
        3: {fielder_id: F3, x: X3, y: Y3}
        6: {fielder_id: F6, x: X6, y: Y6}\n`;
  const report = await at.intake(mapping);
  expect(report.files[1]).toEqual({ file: 'wide.csv', table: 'starts', read: 7, loaded: 3, repeated: 0, setAside: 4 });
  expect(await at.rows('SELECT play_id, position, start_x_ft AS x FROM starts ORDER BY play_id, position')).toEqual([
    { play_id: 'p1', position: 3, x: expect.closeTo(20 / 0.3048, 9) },
    { play_id: 'p1', position: 6, x: expect.closeTo(-12 / 0.3048, 9) },
    { play_id: 'p2', position: 3, x: null },
  ]);
  expect(
    (await at.rows('SELECT line, reason FROM set_aside ORDER BY line, reason')).map(
      ({ line, reason }) => `${line} ${reason}`,
    ),
  ).toEqual([
    "3 start_x_ft (column 'X6'): 'deep' is not a number",
    expect.stringMatching(/^4 start_y_ft \(column 'Y6'\): 1410\.\d+ is outside/),
    "5 there is no play 'p9', neither in this intake nor in the book",
    "5 there is no play 'p9', neither in this intake nor in the book",
  ]);
  const before = await at.contents();
  await at.intake(mapping);
  expect(await at.contents()).toBe(before);
});

describe('any table of cells, written as CSV, comes back', () => {
  let store: Store;
  beforeAll(async () => {
    store = await openDuckDbStore(IN_MEMORY);
  });
  afterAll(() => store.close());

  const unit = fc.constantFrom(
    'a',
    'Ö',
    '😀',
    '7',
    ' ',
    '"',
    "'",
    ',',
    ';',
    '|',
    '\t',
    '\n',
    '\r\n',
    '\\',
    '=',
    '-',
    '%',
  );
  const name = fc.string({ unit, minLength: 1, maxLength: 8 }).filter((text) => text.trim() !== '');
  const rows = fc.array(fc.record({ id: name, name: fc.string({ unit, maxLength: 8 }) }), {
    minLength: 1,
    maxLength: 20,
  });

  test('whatever delimiter, quotes, line ends and packing; and its lines are right', async () => {
    await fc.assert(
      fc.asyncProperty(
        rows,
        fc.constantFrom(',', ';', '|', '\t', '~'),
        fc.constantFrom('\n', '\r\n'),
        fc.boolean(),
        fc.boolean(),
        async (people, delimiter, end, packed, bom) => {
          // A cell is quoted when it must be; sometimes when it need not.
          const quote = (text: string, index: number) =>
            /["\r\n]|^\s|\s$/.test(text) || text.includes(delimiter) || index % 3 === 0
              ? `"${text.replaceAll('"', '""')}"`
              : text;
          const lines = [
            `key${delimiter}label`,
            ...people.map((row, index) => `${quote(row.id, index)}${delimiter}${quote(row.name, index + 1)}`),
          ];
          const text = `${bom ? '\ufeff' : ''}${lines.join(end)}${end}`;
          const path = at.write('people.csv', packed ? gzipSync(text) : text);
          const mapping = parseMapping(
            'tables: {people: {files: [people.csv], columns: {person_id: key, name: label}}}',
            'm.yaml',
          );
          await createStage(store, 'people');
          const source = await inspectSource(path, 'people.csv', { delimiter });
          const staged = await stageFile(store, mapping.sections[0]!, source, at.path);
          const read = await store.rows('SELECT person_id, name FROM stage_people ORDER BY rowid');
          const trimmed = (cell: string) => cell.replaceAll(/^[ \t\r\n]+|[ \t\r\n]+$/g, '') || null;
          expect(read).toEqual(people.map((row) => ({ person_id: trimmed(row.id), name: trimmed(row.name) })));
          expect(staged.broken).toEqual([]);
        },
      ),
      { numRuns: 60 },
    );
  }, 60_000);
});
