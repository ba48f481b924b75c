import { expect, test } from 'vitest';
import { OUTGOING_TABLES } from '../../../src/book/outgoing-tables.ts';
import { runTableTable, runValuesTable } from '../../../src/commands/results/run-tables.ts';
import { runNotes, runTableText, runValuesText } from '../../../src/commands/table/run-text.ts';
import { USUAL_BASE_RUNNING } from '../../../src/ledger/runs/base-running.ts';
import { advancementOn, runValues } from '../../../src/ledger/runs/run-values.ts';
import { fromRunValuesFile, toRunValuesFile } from '../../../src/ledger/runs/run-values-file.ts';
import { chainPlays } from '../../ledger/runs/chain-plays.ts';

const RATES = { strikeout: 0.21, walk: 0.085, home_run: 0.025, out: 0.47, single: 0.155, double: 0.045, triple: 0.01 };
const PLAYS = chainPlays(4000, RATES, advancementOn('ground', USUAL_BASE_RUNNING), 3);
const own = runValues(PLAYS, { fewestInnings: 5 });
const published = runValues(PLAYS, { fewestInnings: 5000 });

test('both tables have the columns that the book has for them', () => {
  const names = (table: { columns: readonly { name: string }[] }) => table.columns.map(({ name }) => name);
  expect(names(runTableTable(own))).toEqual(names(OUTGOING_TABLES.run_table));
  expect(names(runValuesTable(own))).toEqual(names(OUTGOING_TABLES.run_values));
});

test('the grid shows runs, error and innings of each state in its place', () => {
  const lines = runTableText(runTableTable(own)).split('\n');
  expect(lines[0]!.split(/ {2,}/)).toEqual(['runners', 'nobody out', 'one out', 'two out']);
  expect(lines.slice(1, 9).map((line) => line.split(' ')[0])).toEqual([
    '---',
    '1--',
    '-2-',
    '12-',
    '--3',
    '1-3',
    '-23',
    '123',
  ]);
  // 1-3 with one out is state 8 + 5.
  const cell = `${own.table.runs[13]!.toFixed(3)} ± ${own.table.standardError[13]!.toFixed(3)} (${own.table.innings[13]})`;
  expect(lines[6]!.split(/ {2,}/)[2]).toBe(cell);
  expect(runNotes({ runs: 'state' }, 'book')).toMatch(/own innings[\s\S]*--runs state and rest on it/);
});

test('a book with too few innings shows the published table, without errors, and says so', () => {
  const lines = runTableText(runTableTable(published));
  // Lindsey's 1.56 with one out and men on second and third; nothing of the book but its innings.
  expect(lines).toContain(`1.560 (${published.table.innings[14]})`);
  expect(lines).not.toContain('±');
  expect(runNotes({ runs: 'flat', run_table: published.table.reason }, 'Lindsey 1963')).toMatch(
    /^The published table, Lindsey 1963, .*5000 are needed\.\n.*--runs flat and do not use it/,
  );
});

test('values: a hit is worth what its runners and the state after it are, an out costs, and the mean lies between', () => {
  const lines = runValuesText(runValuesTable(own)).trimEnd().split('\n');
  expect(lines.slice(1).map((line) => line.split(/ {2,}/).slice(0, 2).join(' '))).toEqual([
    'ground out',
    'ground single',
    'ground double',
    'ground triple',
    'air out',
    'air single',
    'air double',
    'air triple',
    'ground second out',
  ]);
  for (const line of lines.slice(1, 9)) {
    const [, event, mean, least, most] = line.split(/ {2,}/);
    const [a, b, c] = [mean, least, most].map((text) => Number.parseFloat(text!));
    expect(a! >= b! && a! <= c!, line).toBe(true);
    expect(event === 'out' ? a! < 0 : a! > 0.3, line).toBe(true);
  }
});

test('values survive their file to the last bit', () => {
  for (const values of [own, published])
    expect(fromRunValuesFile(JSON.parse(JSON.stringify(toRunValuesFile(values))))).toEqual(values);
});
