import { copyFileSync, existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { IntakeReport } from '../../src/commands/intake.ts';
import { type Workspace, workspace } from './workspace.ts';

/** A cut of a supplier's export: 600 plays in two files, 12 of them in both, 10 spoiled rows (../fixtures/rough). */
const CUT = fileURLToPath(new URL('../fixtures/rough', import.meta.url));
/** The whole export, when it lies beside the checkout. */
const WHOLE = process.env.LEATHERBOOK_ROUGH ?? fileURLToPath(new URL('../../../shared/data/rough', import.meta.url));
const MAPPING_FILE = join(CUT, 'mapping.yaml');

let at: Workspace;
beforeEach(() => {
  at = workspace();
});
afterEach(() => at.remove());

/** Takes the files of a folder with the committed mapping; the folder itself may be read-only. */
async function take(folder: string, again = false): Promise<IntakeReport> {
  if (!again) {
    for (const name of readdirSync(folder)) copyFileSync(join(folder, name), join(at.path, name));
    copyFileSync(MAPPING_FILE, join(at.path, 'rough.yaml'));
  }
  return at.intake('', { mapping: join(at.path, 'rough.yaml') });
}

function counts(report: IntakeReport) {
  return Object.fromEntries(
    report.files.map(({ file, read, loaded, repeated, setAside }) => [file, [read, loaded, repeated, setAside]]),
  );
}

const REASONS = [
  /^date .*'32\/13\/2031' is not a date written as %d\/%m\/%Y/,
  /^exit_speed_mph .*'rapida' is not a number/,
  /^outs_before .*7 is outside the range 0 to 2/,
  /^play_id .*required, and empty/,
  /^ball_kind .*'Z' is not in the value table/,
];

/** Where people stand on a baseball field, in feet: the sides they are on, and how far out. */
async function expectBaseball() {
  const spots = await at.rows(`SELECT position, avg(start_x_ft) AS x, avg(start_y_ft) AS y,
    min(start_y_ft) AS nearest FROM starts GROUP BY position ORDER BY position`);
  const [pitcher, catcher, first, second, third, short, left, centre, right] = spots as Record<'x' | 'y', number>[];
  expect(Math.abs(pitcher!.x)).toBeLessThan(1);
  expect(pitcher!.y).toBeGreaterThan(53);
  expect(pitcher!.y).toBeLessThan(60.5);
  expect(Math.hypot(catcher!.x, catcher!.y)).toBeLessThan(8);
  for (const infielder of [first, second, third, short]) {
    const away = Math.hypot(infielder!.x, infielder!.y);
    expect(away).toBeGreaterThan(85);
    expect(away).toBeLessThan(170);
  }
  for (const outfielder of [left, centre, right]) expect(Math.hypot(outfielder!.x, outfielder!.y)).toBeGreaterThan(220);
  for (const onTheLeft of [third, short, left]) expect(onTheLeft!.x).toBeLessThan(-20);
  for (const onTheRight of [first, second, right]) expect(onTheRight!.x).toBeGreaterThan(20);
  const [balls] = await at.rows(`SELECT avg(exit_speed_mph) AS speed, min(bearing_deg) AS lo, max(bearing_deg) AS hi,
      count(*) FILTER (ball_kind = 'ground' AND outs_made > 0) / count(*) FILTER (ball_kind = 'ground') AS out_rate,
      count(*) FILTER (runner_on_1b = 'true')::INTEGER AS on_first,
      -- A ball gathered by the third baseman went to the left, one by the first baseman to the right.
      avg(bearing_deg) FILTER (gathered_by = 5) AS to_third, avg(bearing_deg) FILTER (gathered_by = 3) AS to_first,
      max(abs(degrees(atan2(landing_x_ft, landing_y_ft)) - bearing_deg)) AS off_line
    FROM plays`);
  expect(balls!.speed).toBeGreaterThan(70);
  expect(balls!.speed).toBeLessThan(100);
  // Between the lines, but for a caught foul.
  expect(balls!.lo).toBeGreaterThan(-50);
  expect(balls!.hi).toBeLessThan(50);
  expect(balls!.to_third).toBeLessThan(-15);
  expect(balls!.to_first).toBeGreaterThan(15);
  expect(balls!.out_rate).toBeGreaterThan(0.65);
  expect(balls!.out_rate).toBeLessThan(0.85);
  expect(balls!.on_first).toBeGreaterThan(0);
}

test('the cut of the rough export goes through', async () => {
  const report = await take(CUT);
  expect(counts(report)).toEqual({
    'lances-1.tsv': [313, 313, 0, 0],
    'lances-2.tsv.gz': [309, 299, 12, 10],
    'posicoes.tsv.gz': [5397, 5397, 0, 0],
    'corredores.json': [87, 87, 0, 0],
  });
  expect(report.reasons).toHaveLength(REASONS.length);
  for (const reason of REASONS) expect(report.reasons.filter(({ example }) => reason.test(example))).toHaveLength(1);
  expect(await at.rows('SELECT count(*)::INTEGER AS n FROM plays')).toEqual([{ n: 600 }]);
  await expectBaseball();
  // Names with quotes and accents, and people of JSON lines.
  expect(await at.rows(`SELECT count(*)::INTEGER AS n FROM plays WHERE batting_team = 'Lagoa "Velha"'`)).not.toEqual([
    { n: 0 },
  ]);
  expect(await at.rows(`SELECT home_to_first_s AS s FROM people WHERE person_id = 'h0_0'`)).toEqual([{ s: 4.404 }]);
});

test('the lines told of the cut are the lines of the file, newlines in quoted cells counted', async () => {
  await take(CUT);
  const { gunzipSync } = await import('node:zlib');
  const { readFileSync } = await import('node:fs');
  const lines = gunzipSync(readFileSync(join(CUT, 'lances-2.tsv.gz')))
    .toString('utf8')
    .split('\r\n')
    .join('\n')
    .split('\n');
  const aside = await at.rows('SELECT line, text FROM set_aside');
  expect(aside).toHaveLength(10);
  for (const { line, text } of aside) expect(lines[Number(line) - 1]).toBe(String(text).split(/\r?\n/)[0]);
});

test('the cut twice changes nothing', async () => {
  await take(CUT);
  const before = await at.contents();
  expect(counts(await take(CUT, true))['lances-2.tsv.gz']).toEqual([309, 299, 299, 10]);
  expect(await at.contents()).toBe(before);
});

describe.skipIf(!existsSync(WHOLE))('the whole export (skipped where its folder is not; see LEATHERBOOK_ROUGH)', () => {
  test('25 rows set aside, 40 repeated recognised, 9,000 plays', async () => {
    const report = await take(WHOLE);
    expect(counts(report)).toEqual({
      'lances-1.tsv': [4552, 4552, 0, 0],
      'lances-2.tsv.gz': [4513, 4488, 40, 25],
      'posicoes.tsv.gz': [80957, 80957, 0, 0],
      'corredores.json': [88, 88, 0, 0],
    });
    expect(report.reasons.map(({ rows }) => rows)).toEqual([5, 5, 5, 5, 5]);
    expect(await at.rows('SELECT count(*)::INTEGER AS n FROM plays')).toEqual([{ n: 9000 }]);
    await expectBaseball();
  });
});
