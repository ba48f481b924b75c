import { rmSync } from 'node:fs';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { build } from '../../src/commands/build.ts';
import { type TrustReport, trust } from '../../src/commands/trust.ts';
import { simulateLeague } from '../../src/league/simulate-league.ts';
import { SILENT } from '../../src/progress.ts';
import { TEST_NOW, type TemporaryBook, temporaryBook } from '../helpers/temporary-book.ts';

const effects = { progress: SILENT, now: TEST_NOW };
let made: TemporaryBook;
let report: TrustReport;
beforeAll(async () => {
  made = await temporaryBook(simulateLeague({ seasons: 1, teams: 4, seed: 5, ballsPerSeason: 1500 }).plays);
  await made.book.close();
  await build({ book: made.dir, runs: 'neutral', window: 'rolling', draws: 24, seed: 1 }, effects);
  report = await trust({ book: made.dir, folds: 2, seed: 1 }, effects);
});
afterAll(() => made.remove());

test('every model of the build has its record', () => {
  const names = report.models.map(({ name }) => name);
  expect(new Set(names).size).toBe(names.length);
  for (const name of [
    'travel time',
    'reach 1',
    'promise 6',
    'finish 5 by place and time',
    'direct opening L',
    'turn thrown by place',
    'carry distance',
    'air reach 8',
  ])
    expect(names).toContain(name);
  expect(names.some((name) => name.startsWith('hit, liner'))).toBe(true);
  for (const { record } of report.models) expect(record.stopped).toBe('converged');
});

test('grades and groups add up to the grounders, and a small book is told so', () => {
  expect(report.data.grades.reduce((sum, { plays }) => sum + plays, 0)).toBe(report.grounders);
  expect(report.balance.reduce((sum, { plays }) => sum + plays, 0)).toBe(report.grounders);
  expect(report.verdict.answer).toBe('no');
  expect(report.verdict.findings.map(({ text }) => text).join('\n')).toMatch(/grounders are too few/);
});

test('nothing that goes into JSON is lost there', () => {
  const quality = JSON.parse(JSON.stringify(report)).quality as TrustReport['quality'];
  const asked = quality.map(({ question, position }) => `${question} ${position}`);
  for (const one of ['reach 6', 'turn 0', 'pivot 0', 'air opening 0', 'air reach 0', 'air reach 8', 'extra bases 0'])
    expect(asked).toContain(one);
  expect(new Set(asked).size).toBe(asked.length);
  expect(quality[0]!.deciles.length).toBe(10);
  expect(report.residuals.map(({ position }) => position)).toContain(6);
});

test('the same seed gives the same report, on however many threads', async () => {
  expect(await trust({ book: made.dir, folds: 2, seed: 1, threads: 2 }, effects)).toEqual(report);
});

test('more folds than games, and a book without a build, are refused with what to do', async () => {
  await expect(trust({ book: made.dir, folds: 5000, seed: 1 }, effects)).rejects.toMatchObject({
    kind: 'data',
    remedy: expect.stringMatching(/--folds/),
  });
  const unbuilt = await temporaryBook(simulateLeague({ seasons: 1, teams: 2, seed: 1, ballsPerSeason: 100 }).plays);
  await unbuilt.book.close();
  await expect(trust({ book: unbuilt.dir, folds: 5, seed: 1 }, effects)).rejects.toMatchObject({ kind: 'book' });
  rmSync(unbuilt.dir, { recursive: true, force: true });
  await unbuilt.remove();
});
