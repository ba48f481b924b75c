import { beforeAll, expect, test } from 'vitest';
import type { Grounders } from '../../../src/chances/grounders.ts';
import { splitAt, takePlays } from '../../../src/chances/take-plays.ts';
import { assignFolds } from '../../../src/chances/trust/folds.ts';
import { smallGrounders } from './small-league.ts';

let grounders: Grounders;
beforeAll(() => {
  grounders = smallGrounders();
});

const gamesOf = (g: Grounders, fold: Uint8Array, k: number) =>
  new Set(Array.from(g.row, (row, at) => (fold[at] === k ? g.table.games[g.table.game[row]!]! : '')).filter(Boolean));

test('a game lies in one fold, and folds hold as many games as can be', () => {
  const fold = assignFolds(grounders, 5, 1);
  const sizes = [0, 1, 2, 3, 4].map((k) => gamesOf(grounders, fold, k).size);
  const games = new Set(Array.from(grounders.row, (row) => grounders.table.game[row])).size;
  expect(sizes.reduce((a, b) => a + b, 0)).toBe(games);
  expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
});

test('the same seed deals alike whatever the order of the plays; another seed does not', () => {
  const fold = assignFolds(grounders, 4, 9);
  const backwards = Int32Array.from({ length: grounders.count }, (_, k) => grounders.count - 1 - k);
  expect([...assignFolds(takePlays(grounders, backwards), 4, 9)].reverse()).toEqual([...fold]);
  expect([...assignFolds(grounders, 4, 10)]).not.toEqual([...fold]);
});

test('fewer games than folds, or one fold, is refused', () => {
  const first = grounders.table.game[grounders.row[0]!];
  const oneGame = Int32Array.from(grounders.row.keys()).filter(
    (at) => grounders.table.game[grounders.row[at]!] === first,
  );
  expect(() => assignFolds(takePlays(grounders, oneGame), 2, 1)).toThrow(/there are 1 games/);
  expect(() => assignFolds(grounders, 1, 1)).toThrow(RangeError);
});

test('some of the grounders are the same grounders', () => {
  const { held, others } = splitAt(assignFolds(grounders, 3, 1), 1);
  expect(held.length + others.length).toBe(grounders.count);
  const taken = takePlays(grounders, held);
  for (const [k, at] of held.entries()) {
    expect(taken.row[k]).toBe(grounders.row[at]);
    expect(taken.exitSpeedMph[k]).toBe(grounders.exitSpeedMph[at]);
    expect(taken.starts.subarray(k * 12, k * 12 + 12)).toEqual(grounders.starts.subarray(at * 12, at * 12 + 12));
  }
});
