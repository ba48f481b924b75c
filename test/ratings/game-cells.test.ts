import { describe, expect, it } from 'vitest';
import { mergeRows } from '../../src/ratings/game-cells.ts';
import { drawPoissonWeights } from '../../src/ratings/poisson-weights.ts';
import { estimateChanceRates } from '../../src/ratings/rates.ts';
import { estimateTotalErrors } from '../../src/ratings/total-errors.ts';
import { inventCells } from './invented-cells.ts';

describe('rates a chance', () => {
  it('are sums over sums, with the standard error of a ratio', () => {
    const n = 200;
    const own = Array.from({ length: n }, (_, game) => ({
      game,
      chances: 1 + (game % 3),
      reach: 0.1 * (1 + (game % 3)) + (game % 2 === 0 ? 0.4 : -0.4),
    }));
    const cells = inventCells([['man', own]]);
    const weights = drawPoissonWeights(
      own.map(({ game }) => `g${game}`),
      3000,
      2,
    );
    const [rates] = estimateChanceRates(cells, weights);
    const chances = own.reduce((all, game) => all + game.chances, 0);
    const total = own.reduce((all, game) => all + game.reach, 0);
    const rate = total / chances;
    expect(rates!.net.value).toBeCloseTo(100 * rate, 9);
    // Linearised: residuals from the rate, over the chances.
    const squares = own.reduce((all, game) => all + (game.reach - rate * game.chances) ** 2, 0);
    expect(Math.abs(rates!.net.se / ((100 * Math.sqrt(squares)) / chances) - 1)).toBeLessThan(0.05);
    expect(estimateChanceRates(cells, null)[0]!.net).toEqual({ value: rates!.net.value, se: Number.NaN });
  });

  it('are empty where there are few chances or games', () => {
    const few = inventCells([['man', [{ game: 0, chances: 30, reach: 1 }]]]);
    expect(estimateChanceRates(few, null)[0]!.net.value).toBeNaN();
  });
});

describe('errors of a club', () => {
  it('know that its men play the same games', () => {
    const games = Array.from({ length: 60 }, (_, game) => game);
    const up = games.map((game) => ({ game, reach: game % 2 === 0 ? 1 : -1 }));
    const down = games.map((game) => ({ game, reach: game % 2 === 0 ? -1 : 1 }));
    const weights = drawPoissonWeights(games.map(String), 400, 1);
    const both = mergeRows(
      inventCells([
        ['one', up],
        ['other', down],
      ]),
      () => 'club',
      () => 'club',
    );
    expect(estimateTotalErrors(both, weights)[0]!.net).toBeCloseTo(0, 12);
  });
});
