import { expect, it } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { type MovedGain, sumMovedGains } from '../../src/ratings/moved-room.ts';
import { drawPoissonWeights } from '../../src/ratings/poisson-weights.ts';

const GAMES = 40;
const random = createRandom(4);
/** Three balls a game for a club, and one for one man. */
const gains: MovedGain[] = Array.from({ length: GAMES }, (_, game) => game).flatMap((game) => [
  ...[0, 1, 2].map(() => ({
    season: 2032,
    fielder: null,
    position: null,
    team: 0,
    game,
    outs: 0.1 * random.normal() + 0.02,
    runs: 0.1 * random.normal() + 0.05,
  })),
  { season: 2032, fielder: 7, position: 6, team: 0, game, outs: -0.01, runs: -0.02 },
]);

it('adds gains up by man and club, the largest first', () => {
  const [club, man, ...others] = sumMovedGains(gains, null);
  expect(others).toEqual([]);
  const ofClub = gains.filter(({ fielder }) => fielder === null);
  expect(club).toMatchObject({ fielder: null, position: null, team: 0, plays: 3 * GAMES });
  expect(club!.gainRuns).toBeCloseTo(
    ofClub.reduce((sum, { runs }) => sum + runs, 0),
    12,
  );
  expect(club!.gainOuts).toBeCloseTo(
    ofClub.reduce((sum, { outs }) => sum + outs, 0),
    12,
  );
  expect(man).toMatchObject({ season: 2032, fielder: 7, position: 6, plays: GAMES, gainRunsSe: Number.NaN });
  expect(man!.gainRuns).toBeCloseTo(-0.02 * GAMES, 12);
});

it('has the error of a sum of games, whatever the order of the balls', () => {
  const names = Array.from({ length: GAMES }, (_, game) => `g${game}`);
  const weights = drawPoissonWeights(names, 2000, 1);
  const [club, man] = sumMovedGains(gains, weights);
  const sums = new Float64Array(GAMES);
  for (const { fielder, game, runs } of gains) if (fielder === null) sums[game]! += runs;
  const mean = sums.reduce((sum, value) => sum + value, 0) / GAMES;
  const byFormula = Math.sqrt((GAMES * sums.reduce((sum, value) => sum + (value - mean) ** 2, 0)) / (GAMES - 1));
  expect(Math.abs(club!.gainRunsSe / byFormula - 1)).toBeLessThan(0.06);
  expect(club!.lo80).toBeLessThan(club!.gainRuns);
  expect(club!.hi80).toBeGreaterThan(club!.gainRuns);
  // He lost the same in every game.
  expect(man!.gainRunsSe).toBeLessThan(1e-12);
  expect(sumMovedGains(gains.toReversed(), weights)[0]!.gainRunsSe).toBeCloseTo(club!.gainRunsSe, 12);
});
