import { beforeAll, expect, test } from 'vitest';
import { allocatePlayTable, type PlayTable } from '../../../src/chances/play-table.ts';
import { BALL_KINDS, RESULTS } from '../../../src/diamond/play-codes.ts';
import { simulateLeague } from '../../../src/league/simulate-league.ts';
import { type HitModel, hitFits, predictHits } from '../../../src/ledger/runs/hit-model.ts';
import { fromHitModelFile, toHitModelFile } from '../../../src/ledger/runs/hit-model-file.ts';
import { type RunValues, runValues } from '../../../src/ledger/runs/run-values.ts';
import { stakes } from '../../../src/ledger/runs/stakes.ts';
import { fitHere } from '../../../src/models/fitting.ts';

const GROUND = BALL_KINDS.indexOf('ground');
const [DOUBLE, TRIPLE, HOME_RUN] = (['double', 'triple', 'home_run'] as const).map((name) => RESULTS.indexOf(name));

let plays: PlayTable;
let hits: HitModel;
let values: RunValues;
let rows: Int32Array;
let chances: Float64Array;

beforeAll(() => {
  ({ plays } = simulateLeague({ seasons: 1, teams: 6, seed: 12, ballsPerSeason: 14_000 }));
  hits = fitHere(hitFits(plays));
  values = runValues(plays);
  rows = Int32Array.from({ length: plays.count }, (_, row) => row);
  chances = predictHits(hits, plays, rows);
});

const grounders = (keep: (row: number) => boolean) => rows.filter((row) => plays.ballKind[row] === GROUND && keep(row));
const mean = (of: ArrayLike<number>) => Array.from(of).reduce((sum, value) => sum + value, 0) / of.length;
const nearLine = (row: number) => Math.abs(plays.bearingDeg[row]) > 38;
const inMiddle = (row: number) => Math.abs(plays.bearingDeg[row]) < 25;

test('chances of the three hits are chances', () => {
  let [least, farthest] = [1, 0];
  for (let k = 0; k < plays.count; k += 1) {
    const [one, two, three] = chances.subarray(3 * k, 3 * k + 3);
    least = Math.min(least, one, two, three);
    farthest = Math.max(farthest, Math.abs(one + two + three - 1));
  }
  expect(least).toBeGreaterThanOrEqual(0);
  expect(farthest).toBeLessThan(1e-12);
});

test('over every kind of ball and strip of the field the chances are what happened, within three standard errors', () => {
  const strips = new Map<string, { expected: number; variance: number; seen: number }>();
  for (const row of rows) {
    if (plays.outsMade[row] > 0 || plays.result[row] === HOME_RUN) continue;
    const group = plays.ballKind[row] === GROUND ? 'ground' : 'air';
    const key = `${group} ${Math.round(plays.bearingDeg[row] / 10)}`;
    const strip = strips.get(key) ?? { expected: 0, variance: 0, seen: 0 };
    const extra = 1 - chances[3 * row];
    strip.expected += extra;
    strip.variance += extra * (1 - extra);
    strip.seen += plays.result[row] === DOUBLE || plays.result[row] === TRIPLE ? 1 : 0;
    strips.set(key, strip);
  }
  expect(strips.size).toBeGreaterThan(15);
  for (const [key, { expected, variance, seen }] of strips)
    expect(Math.abs(seen - expected) / Math.sqrt(variance + 0.5), key).toBeLessThan(3);
});

test('near the lines more is at stake than in the middle, and most of all for the corner men', () => {
  const neutral = (own: Int32Array) => mean(stakes(plays, own, 'neutral', { values, hits }));
  const gatheredBy =
    (...men: number[]) =>
    (row: number) =>
      men.includes(plays.gatheredBy[row]);
  const corners = grounders((row) => nearLine(row) && gatheredBy(3, 5)(row));
  const middle = grounders((row) => inMiddle(row) && gatheredBy(4, 6)(row));
  expect(corners.length).toBeGreaterThan(100);
  expect(neutral(corners)).toBeGreaterThan(neutral(middle) + 0.04);
  for (const line of [-1, 1])
    expect(neutral(grounders((row) => nearLine(row) && line * plays.bearingDeg[row] > 0))).toBeGreaterThan(
      neutral(grounders(inMiddle)) + 0.04,
    );
  expect(Math.abs(neutral(grounders(inMiddle)) - 0.75)).toBeLessThan(0.08);
});

test('flat is 0.75 a play; by state a play is worth more with men on, and its mean is near the neutral one', () => {
  expect(stakes(plays, rows.slice(0, 3), 'flat')).toEqual(new Float64Array([0.75, 0.75, 0.75]));
  const state = (own: Int32Array) => stakes(plays, own, 'state', { values, hits });
  const all = state(rows);
  expect(Math.min(...all)).toBeGreaterThan(0.1);
  expect(Math.abs(mean(all) - mean(stakes(plays, rows, 'neutral', { values, hits })))).toBeLessThan(0.02);
  const withMen = grounders((row) => plays.bases[row] >= 6);
  expect(mean(state(withMen))).toBeGreaterThan(2 * mean(state(grounders((row) => plays.bases[row] === 0))));
  expect(() => stakes(plays, rows, 'state')).toThrow(/mode state need run values/);
});

test('a hit model survives its file', () => {
  const copy = fromHitModelFile(JSON.parse(JSON.stringify(toHitModelFile(hits))));
  expect(predictHits(copy, plays, rows)).toEqual(chances);
});

/** Grounders that were no outs, doubled with a chance that may hang on the park. */
function twoParks(doubles: readonly [number, number], result = (row: number) => row): PlayTable {
  const table = allocatePlayTable(4000);
  table.parks = ['wide', 'narrow'];
  for (let row = 0; row < table.count; row += 1) {
    table.ballKind[row] = GROUND;
    table.park[row] = row % 2;
    table.bearingDeg[row] = ((row * 7) % 90) - 45;
    table.exitSpeedMph[row] = 70 + ((row * 13) % 40);
    const turn = (Math.floor(row / 2) * 37) % 100;
    table.result[row] = turn < 100 * doubles[row % 2] ? DOUBLE : result(RESULTS.indexOf('single'));
  }
  return table;
}

test('a park where hits go farther shows, and a park unknown to the model lies between', () => {
  const table = twoParks([0.3, 0.1]);
  const model = fitHere(hitFits(table));
  const extra = (own: PlayTable, row: number) => 1 - predictHits(model, own, [row])[0];
  expect(extra(table, 0)).toBeGreaterThan(0.2);
  expect(extra(table, 1)).toBeLessThan(0.15);
  // Names decide, not numbers: another book may number its parks in another order.
  const swapped = { ...table, parks: ['narrow', 'wide'] };
  expect(extra(swapped, 1) > extra(swapped, 0)).toBe(true);
  const elsewhere = { ...table, parks: ['here', 'there'] };
  expect(extra(elsewhere, 0)).toBeLessThan(extra(table, 0));
  expect(extra(elsewhere, 0)).toBeGreaterThan(extra(table, 1));
});

test('a wall that is near in one strip of one park shows there and nowhere else', () => {
  const table = twoParks([0.1, 0.1]);
  table.ballKind.fill(BALL_KINDS.indexOf('liner'));
  const isPorch = (row: number) => table.park[row] === 0 && table.bearingDeg[row] >= 30;
  for (let row = 0; row < table.count; row += 1)
    if (isPorch(row)) table.result[row] = (row >> 1) % 2 === 0 ? DOUBLE : RESULTS.indexOf('single');
  const all = Array.from({ length: table.count }, (_, row) => row);
  const shares = predictHits(fitHere(hitFits(table)), table, all);
  const extra = (keep: (row: number) => boolean) => mean(all.filter(keep).map((row) => 1 - shares[3 * row]));
  expect(extra(isPorch)).toBeGreaterThan(0.4);
  expect(extra((row) => table.park[row] === 1 && table.bearingDeg[row] >= 30)).toBeLessThan(0.2);
  expect(extra((row) => table.park[row] === 0 && table.bearingDeg[row] < -10)).toBeLessThan(0.2);
});

test('errors and choices without an out count as singles; home runs and outs do not count', () => {
  const table = twoParks([0.2, 0.2]);
  const fitted = predictHits(fitHere(hitFits(table)), table, [0, 1, 2]);
  const alike = twoParks([0.2, 0.2], () => RESULTS.indexOf('error'));
  expect(predictHits(fitHere(hitFits(alike)), alike, [0, 1, 2])).toEqual(fitted);
  const gone = { ...table, result: table.result.map((code) => (code === DOUBLE ? HOME_RUN : code)) };
  const [ground] = fitHere(hitFits(gone)).groups;
  expect(ground.fitted).toBeNull();
  expect(ground.shares[0]).toBeGreaterThan(0.99);
});

test('a book with hardly any hits gets the usual shares', () => {
  const empty = fitHere(hitFits(allocatePlayTable(0)));
  expect(empty.groups.map(({ shares }) => shares.map((share) => share.toFixed(3)))).toEqual([
    ['0.920', '0.077', '0.003'],
    ['0.720', '0.260', '0.020'],
    ['0.500', '0.450', '0.050'],
  ]);
});
