import { expect, test } from 'vitest';
import { foldIntervals } from '../../../src/commands/table/fold-intervals.ts';

const table = (columns: Readonly<Record<string, readonly number[]>>) => {
  const entries = Object.entries(columns);
  return {
    rowCount: entries[0]![1].length,
    columns: entries.map(([name, values]) => ({ name, type: 'double' as const, values: Float64Array.from(values) })),
  };
};
const NONE = Number.NaN;

test('a standard error joins its value, one below the other, and is left out where it is not known', () => {
  const folded = foldIntervals(table({ net_runs: [-2.44, 10.1, 0.2, NONE], net_runs_se: [10.26, 0.5, NONE, NONE] }));
  expect(folded.columns.map(({ name }) => name)).toEqual(['net_runs']);
  expect(folded.columns[0]!.values).toEqual([' -2.4 ± 10.3', '+10.1 ±  0.5', ' +0.2', null]);
});

test('bounds join their value and come before a standard error; no upper bound is said to be none', () => {
  const folded = foldIntervals(
    table({
      half_signal_chances: [46.4, NONE],
      half_signal_chances_lo95: [16, 30],
      half_signal_chances_hi95: [NONE, NONE],
      gain_runs: [1, 2],
      gain_runs_se: [1, 1],
      gain_runs_lo80: [-0.3, 0.7],
      gain_runs_hi80: [2.3, 3.3],
      r: [0.5, 0.25],
      lo95: [-0.1, 0],
      hi95: [0.8, 0.9],
    }),
  );
  expect(folded.columns.map(({ name }) => name)).toEqual(['half_signal_chances, 95 %', 'gain_runs, 80 %', 'r, 95 %']);
  expect(folded.columns.map(({ values }) => values)).toEqual([
    ['  46 (16 or more)', 'none (30 or more)'],
    ['+1.0 (-0.3 to +2.3)', '+2.0 (+0.7 to +3.3)'],
    ['0.50 (-0.10 to 0.80)', '0.25 ( 0.00 to 0.90)'],
  ]);
});

test('a column without company is left alone', () => {
  const alone = table({ net_runs: [1], chances: [2] });
  expect(foldIntervals(alone)).toEqual(alone);
});

test('a rating has its bounds under its own name or under none, and rates keep their sign', () => {
  const next = foldIntervals(table({ rating: [8.1], rating_lo80: [7.1], rating_hi80: [9.2] }));
  expect(next.columns.map(({ name, values }) => [name, values])).toEqual([['rating, 80 %', ['+8.1 (+7.1 to +9.2)']]]);
  const club = foldIntervals(table({ placement_rating: [2.1], lo80: [1.3], hi80: [3] }));
  expect(club.columns.map(({ values }) => values)).toEqual([['+2.1 (+1.3 to +3.0)']]);
  const rates = foldIntervals(table({ net_outs_per_100: [4], net_outs_per_100_se: [1.5] }));
  expect(rates.columns[0]!.values).toEqual(['+4.0 ± 1.5']);
  const innings = foldIntervals(table({ net_runs_per_1000_innings: [40], net_runs_per_1000_innings_se: [15.25] }));
  expect(innings.columns[0]!.values).toEqual(['+40.0 ± 15.3']);
});
