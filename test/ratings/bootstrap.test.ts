import { describe, expect, it } from 'vitest';
import { REACH } from '../../src/ledger/entry-kinds.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { drawPoissonWeights } from '../../src/ratings/poisson-weights.ts';
import { FEWEST_GAMES, RowReplicates } from '../../src/ratings/row-replicates.ts';
import { middle80, quantileOfSorted, shareAboveZero, standardErrorOf } from '../../src/ratings/spread.ts';
import { estimateTotalErrors } from '../../src/ratings/total-errors.ts';
import { type InventedGame, inventCells } from './invented-cells.ts';

const names = (count: number) => Array.from({ length: count }, (_, g) => `game-${g}`);

/** n games of reach: skewed like those of a defender, who mostly gets a little and now and then loses a lot. */
function games(n: number, seed: number, mean = 0.1): InventedGame[] {
  const random = createRandom(seed);
  return Array.from({ length: n }, (_, game) => ({ game, reach: mean + 0.5 * (1 + Math.log(1 - random.next())) }));
}

function errorByFormula(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return Math.sqrt((values.length * squares) / (values.length - 1));
}

describe('drawPoissonWeights', () => {
  it('are counts of mean and variance one with the chances of a Poisson count', () => {
    const { weight } = drawPoissonWeights(names(400), 500, 7);
    const n = weight.length;
    const mean = weight.reduce((sum, w) => sum + w, 0) / n;
    const variance = weight.reduce((sum, w) => sum + (w - mean) ** 2, 0) / n;
    expect(mean).toBeCloseTo(1, 2);
    expect(Math.abs(variance - 1)).toBeLessThan(0.02);
    for (const [count, chance] of [Math.exp(-1), Math.exp(-1), Math.exp(-1) / 2, Math.exp(-1) / 6].entries()) {
      const share = weight.reduce((sum, w) => sum + (w === count ? 1 : 0), 0) / n;
      expect(Math.abs(share - chance)).toBeLessThan(4 * Math.sqrt((chance * (1 - chance)) / n));
    }
  });

  it('of a game do not depend on the other games, nor the first replicates on how many follow; they do on the seed', () => {
    const few = drawPoissonWeights(['b', 'a'], 50, 1).weight;
    const many = drawPoissonWeights(['a', 'z', 'b'], 80, 1).weight;
    expect([...few.subarray(0, 50)]).toEqual([...many.subarray(160, 210)]);
    expect([...few.subarray(50, 100)]).toEqual([...many.subarray(0, 50)]);
    expect([...drawPoissonWeights(['b'], 50, 2).weight]).not.toEqual([...few.subarray(0, 50)]);
  });
});

describe('standard errors of totals', () => {
  it('are those of a sum of independent games: the root of n times the sample variance', () => {
    const replicates = 4000;
    for (const [n, mean] of [
      [150, 0.1],
      [150, 2],
      [20, 0.1],
    ] as const) {
      const own = games(n, n, mean);
      const cells = inventCells([['man', own]]);
      const [{ runs, net }] = estimateTotalErrors(cells, drawPoissonWeights(names(n), replicates, 3)) as [
        { runs: Float64Array; net: number },
      ];
      const expected = errorByFormula(own.map(({ reach }) => reach!));
      // A standard deviation of so many replicates is known to some 1.1 % and a bit more, since they are not quite normal.
      expect(Math.abs(runs[REACH]! / expected - 1)).toBeLessThan(0.05);
      expect(net).toBeCloseTo(runs[REACH]!, 12);
    }
  });

  it('say nothing of a few games', () => {
    const cells = inventCells([['man', games(FEWEST_GAMES - 1, 1)]]);
    const [errors] = estimateTotalErrors(cells, drawPoissonWeights(names(10), 100, 1));
    expect(errors!.net).toBeNaN();
  });

  it('keep what rows of the same games have in common: a man against himself differs by nothing', () => {
    const [n, replicates] = [100, 2000];
    const one = games(n, 5).map((game) => ({ ...game, reach: game.reach! }));
    const noise = games(n, 6, 0);
    const like = one.map(({ game, reach }, g) => ({ game, reach: reach + 0.3 * noise[g]!.reach! }));
    const cells = inventCells([
      ['one', one],
      ['like him', like],
    ]);
    const row = new RowReplicates(drawPoissonWeights(names(n), replicates, 9));
    const [a, b] = [new Float64Array(replicates), new Float64Array(replicates)];
    row.setRow({ game: cells.game, from: 0, to: n });
    row.totalsInto(cells.runs[REACH]!, a);
    row.setRow({ game: cells.game, from: n, to: 2 * n });
    row.totalsInto(cells.runs[REACH]!, b);
    const difference = a.map((value, r) => value - b[r]!);
    const expected = errorByFormula(one.map(({ reach }, g) => reach - like[g]!.reach));
    expect(Math.abs(standardErrorOf(difference) / expected - 1)).toBeLessThan(0.06);
    expect(standardErrorOf(difference)).toBeLessThan(0.5 * standardErrorOf(a));
  });

  it('cover the truth as often as they say on simulated seasons', () => {
    const [seasons, n, replicates] = [600, 60, 300];
    const { weight } = drawPoissonWeights(names(n), replicates, 11);
    const row = new RowReplicates({ replicates, weight });
    const totals = new Float64Array(replicates);
    let covered = 0;
    for (let season = 0; season < seasons; season += 1) {
      const cells = inventCells([['man', games(n, 1000 + season, 0.25)]]);
      row.setRow({ game: cells.game, from: 0, to: n });
      row.totalsInto(cells.runs[REACH]!, totals);
      const { lo80, hi80 } = middle80(totals);
      if (lo80 <= 0.25 * n && 0.25 * n <= hi80) covered += 1;
    }
    // 80 % with a standard error of 1.6 points; skewed games and 300 replicates take a point or two.
    expect(covered / seasons).toBeGreaterThan(0.75);
    expect(covered / seasons).toBeLessThan(0.85);
  });
});

describe('spread', () => {
  it('finds quantiles between neighbours, infinite ones too, and says nothing where one is unknown', () => {
    expect(quantileOfSorted(Float64Array.of(1, 2, 4), 0.25)).toBe(1.5);
    expect(quantileOfSorted(Float64Array.of(1, 2, Number.POSITIVE_INFINITY), 0.5)).toBe(2);
    expect(quantileOfSorted(Float64Array.of(1, 2, Number.POSITIVE_INFINITY), 0.9)).toBe(Number.POSITIVE_INFINITY);
    expect(middle80(Float64Array.of(1, Number.NaN)).hi80).toBeNaN();
  });

  it('counts a tie as half', () => {
    expect(shareAboveZero(Float64Array.of(-1, 0, 2, 3))).toBe(0.625);
    expect(shareAboveZero(Float64Array.of(1, Number.NaN))).toBeNaN();
  });
});
