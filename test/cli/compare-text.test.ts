import { expect, test } from 'vitest';
import { compareCsv } from '../../src/cli/compare-csv.ts';
import { compareText } from '../../src/cli/compare-text.ts';
import type { ComparedDefender, Comparison } from '../../src/commands/compare.ts';
import { COMPARED_RATES, COMPARED_SUMS } from '../../src/ratings/compare.ts';
import { expectGolden } from '../helpers/golden.ts';

const estimate = (value: number, half: number) => ({ value, lo80: value - half, hi80: value + half });
const difference = (value: number, half: number, chanceAbove: number) => ({ ...estimate(value, half), chanceAbove });
const byKind = <Value>(kinds: readonly string[], of: (k: number) => Value) =>
  Object.fromEntries(kinds.map((kind, k) => [kind, of(k)]));

const defender = (id: string, name: string | null, level: number): ComparedDefender => ({
  id,
  name,
  positions: [6],
  seasons: [2031, 2032],
  teams: ['Tarn'],
  games: 120,
  plays: 2400,
  chances: 410.25,
  shareFull: 0.93,
  // Turn, ground and whole are nothing for both.
  runs: byKind(COMPARED_SUMS, (k) => estimate(k > 2 && k < 6 ? 0 : level + k, k > 2 && k < 6 ? 0 : 3)),
  outsPer100: byKind(COMPARED_RATES, (k) => (id === 'p9' ? estimate(Number.NaN, 0) : estimate(level / 2 + k, 1.04))),
  ratings:
    id === 'p9'
      ? []
      : [
          { position: 6, skill: 'reach', part: 'all', value: estimate(level / 4, 0.5) },
          // The other man's hand is not known, so that his sides have other names.
          {
            position: 6,
            skill: 'reach',
            part: id === 'p1' ? 'backhand' : 'to his right',
            value: estimate(-level / 8, 1),
          },
          { position: 6, skill: 'finish', part: 'all', value: estimate(0.25, 0.5) },
        ],
});

const comparison: Comparison = {
  position: 6,
  season: null,
  replicates: 1000,
  seed: 1,
  defenders: [defender('p1', 'Ada Quill', 8), defender('p2', 'Bo Ray', -1), defender('p9', null, 0)],
  differences: ['p2', 'p9'].map((id) => ({
    to: { id, name: null },
    runs: byKind(COMPARED_SUMS, (k) => difference(9 - k, 4.2, [0.998, 0.7, 0.5, 0.001][k] ?? 0.25)),
    outsPer100: byKind(COMPARED_RATES, () =>
      difference(id === 'p9' ? Number.NaN : 4.5, 1.5, id === 'p9' ? Number.NaN : 1),
    ),
    ratings: id === 'p9' ? [] : [{ position: 6, skill: 'reach', part: 'all', value: difference(2.25, 0.7, 0.97) }],
  })),
  notes: ['One of them has too few games for an interval.'],
};

test('two defenders beside another', () => {
  expectGolden('compare', compareText(comparison));
});

test('as CSV, a row a value', () => {
  const lines = compareCsv(comparison).split('\r\n');
  expect(lines[0]).toBe('fielder_id,less,measure,kind,position,part,value,lo80,hi80,chance_above');
  const own = COMPARED_SUMS.length + COMPARED_RATES.length;
  // Three men, two of them with three ratings, and two differences, one of them with a rating.
  expect(lines.slice(1, -1)).toHaveLength(3 * own + 2 * 3 + 2 * own + 1);
  expect(lines).toContain('p1,,rating,reach,6,backhand,-1,-2,0,');
  expect(lines).toContain('p1,p2,rating,reach,6,all,2.25,1.55,2.95,0.97');
  // What is not known is an empty cell.
  expect(lines).toContain('p9,,outs_per_100,reach,6,all,,,,');
});
