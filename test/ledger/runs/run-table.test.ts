import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { PlayTable } from '../../../src/chances/play-table.ts';
import { type Advancement, everyState, move, PUT_OUT } from '../../../src/ledger/runs/advancement.ts';
import { BASE_OUT_STATES } from '../../../src/ledger/runs/base-out.ts';
import { USUAL_BASE_RUNNING } from '../../../src/ledger/runs/base-running.ts';
import { halfInningChain } from '../../../src/ledger/runs/half-inning-chain.ts';
import { LINDSEY_1963_RUNS } from '../../../src/ledger/runs/lindsey-1963.ts';
import { runTable } from '../../../src/ledger/runs/run-table.ts';
import { advancementOn } from '../../../src/ledger/runs/run-values.ts';
import { createRandom } from '../../../src/numeric/random.ts';
import { chainPlays } from './chain-plays.ts';

const RATES = { strikeout: 0.21, walk: 0.085, home_run: 0.025, out: 0.47, single: 0.155, double: 0.045, triple: 0.01 };
const ADVANCEMENT = advancementOn('ground', USUAL_BASE_RUNNING);
const PLAYS = chainPlays(20_000, RATES, ADVANCEMENT, 3);
const TRUTH = trueRuns();

/** Exact expected runs of the chain that the plays were drawn from: strikeouts are outs that move nobody. */
function trueRuns(): Float64Array {
  const { strikeout, out, ...rest } = RATES;
  const share = strikeout / (strikeout + out);
  const outs = everyState((state) => [
    move(state, { batter: PUT_OUT, runners: [1, 2, 3] }, share),
    ...ADVANCEMENT.out[state].map((way) => ({ ...way, chance: way.chance * (1 - share) })),
  ]);
  const advancement: Advancement = { ...ADVANCEMENT, out: outs };
  return halfInningChain({ ...rest, out: strikeout + out }, advancement).runs;
}

function misses(values: Float64Array, errors: Float64Array): number[] {
  return Array.from(values, (value, state) => (value - TRUTH[state]) / errors[state]);
}

const chiSquare = (zs: number[]) => zs.reduce((sum, z) => sum + z * z, 0);

function reordered(plays: PlayTable, order: readonly number[]): PlayTable {
  const columns = Object.entries(plays).map(([name, column]) => {
    if (!ArrayBuffer.isView(column)) return [name, column];
    const typed = column as Float64Array;
    const width = typed.length / plays.count;
    return [name, typed.map((_, k) => typed[order[Math.floor(k / width)] * width + (k % width)])];
  });
  return { ...Object.fromEntries(columns), count: plays.count } as PlayTable;
}

test('from balls in play alone the run table finds the expected runs of all turns at bat', () => {
  const table = runTable(PLAYS);
  expect(table.source).toBe('book');
  const zs = misses(table.runs, table.standardError);
  // 24 standard normals, correlated: 43 is exceeded once in a hundred when they are independent.
  expect(chiSquare(zs)).toBeLessThan(43);
  expect(Math.max(...zs.map(Math.abs))).toBeLessThan(3.5);
  // The mean over the plays of a state is another thing: the same test throws it out, far.
  expect(chiSquare(misses(table.meanAtPlays, table.standardError))).toBeGreaterThan(3 * 43);
});

test('the turns at bat that are not in the book are inferred from the gaps', () => {
  const { turns } = runTable(PLAYS);
  expect(Math.abs(turns.inPlay - 0.68)).toBeLessThan(0.01);
  expect(Math.abs(turns.strikeout - RATES.strikeout)).toBeLessThan(0.01);
  expect(Math.abs(turns.walk - RATES.walk)).toBeLessThan(0.006);
  expect(Math.abs(turns.homeRun - RATES.home_run)).toBeLessThan(0.004);
  expect(turns.inPlay + turns.strikeout + turns.walk + turns.homeRun).toBeCloseTo(1, 12);
});

test('standard errors are the spread over books', () => {
  const tables = Array.from({ length: 60 }, (_, k) =>
    runTable(chainPlays(800, RATES, ADVANCEMENT, 100 + k), { fewestInnings: 1 }),
  );
  const books = tables.filter(({ source }) => source === 'book');
  expect(books.length).toBeGreaterThan(40);
  for (const state of [0, 1, 8, 9, 16, 17]) {
    const values = books.map(({ runs }) => runs[state]);
    const mean = values.reduce((sum, v) => sum + v, 0) / values.length;
    const spread = Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (values.length - 1));
    const stated = books.reduce((sum, { standardError }) => sum + standardError[state], 0) / books.length;
    expect(spread / stated).toBeGreaterThan(0.7);
    expect(spread / stated).toBeLessThan(1.4);
  }
});

test('the order of rows changes nothing but rounding', () => {
  const random = createRandom(8);
  const order = Array.from({ length: PLAYS.count }, (_, k) => ({ k, by: random.next() }));
  order.sort((a, b) => a.by - b.by);
  const mixed = runTable(
    reordered(
      PLAYS,
      order.map(({ k }) => k),
    ),
  );
  const table = runTable(PLAYS);
  for (let state = 0; state < BASE_OUT_STATES; state += 1) expect(mixed.runs[state]).toBeCloseTo(table.runs[state], 10);
  expect(mixed.turns).toEqual(table.turns);
});

test('innings after the eighth, and plays whose runs are not known, do not count', () => {
  const late = { ...PLAYS, inning: PLAYS.inning.map((inning) => (inning === 4 ? 9 : inning)) };
  const unknown = {
    ...PLAYS,
    runsRestOfInning: PLAYS.runsRestOfInning.map((runs, row) => (PLAYS.inning[row] === 4 ? Number.NaN : runs)),
  };
  expect(runTable(late).runs).toEqual(runTable(unknown).runs);
  expect(runTable(late).runs).not.toEqual(runTable(PLAYS).runs);
  expect(runTable(late).plays).toEqual(runTable(PLAYS).plays);
});

test('too few half innings of one state: the whole published table, and the reason', () => {
  const few = runTable(chainPlays(300, RATES, ADVANCEMENT, 4));
  expect(few.source).toBe('Lindsey 1963');
  expect(few.reason).toMatch(/was seen in \d+ half innings of the book; 50 are needed/);
  expect([...few.runs]).toEqual([...LINDSEY_1963_RUNS]);
  expect(few.standardError.every(Number.isNaN)).toBe(true);
  const least = Math.min(...runTable(PLAYS).innings);
  expect(runTable(PLAYS, { fewestInnings: least }).source).toBe('book');
  expect(runTable(PLAYS, { fewestInnings: least + 1 }).source).toBe('Lindsey 1963');
  const noRuns = runTable({ ...PLAYS, runsScored: PLAYS.runsScored.map(() => Number.NaN) });
  expect(noRuns.reason).toMatch(/No play/);
});

test('a book with only some of the balls in play has no table of its own', () => {
  const outs = Array.from({ length: PLAYS.count }, (_, row) => row).filter((row) => PLAYS.outsMade[row] > 0);
  const table = runTable({ ...reordered(PLAYS, outs), count: outs.length });
  expect(table.source).toBe('Lindsey 1963');
  expect(table.reason).toMatch(/Only \d+ % of the turns at bat/);
});

test("Lindsey's table stands in the order of the states", () => {
  const reference = JSON.parse(
    readFileSync(new URL('../../../checks/references/run-tables.json', import.meta.url), 'utf8'),
  );
  const { bases, by_outs } = reference.lindsey_1963;
  bases.forEach((name: string, column: number) => {
    const bits = [...name].reduce((sum, mark, k) => sum + (mark === '-' ? 0 : 1 << k), 0);
    for (let outs = 0; outs < 3; outs += 1) expect(LINDSEY_1963_RUNS[outs * 8 + bits]).toBe(by_outs[outs][column]);
  });
});
