import { beforeAll, describe, expect, it } from 'vitest';
import { correlation } from './correlation.ts';
import { type LeagueEvidence, leagueEvidence } from './league-evidence.ts';
import { type Foretold, forecastError, foretell, foretoldInside } from './next-season.ts';
import { type RatedMan, ratingsAgainstTruth } from './true-ratings.ts';

/**
 * Ratings against the truth of one small demo league, too small to judge intervals of skill by: bench/ratings-truth.ts does that over twenty
 * larger ones, and test/ratings/rate-men.test.ts over men who are drawn from the model.
 */
let own: LeagueEvidence;
let reach: RatedMan[];
let foretold: Foretold[];

beforeAll(() => {
  own = leagueEvidence({ seasons: 3, teams: 8, seed: 61, ballsPerSeason: 3000 });
  reach = ratingsAgainstTruth(own, own.lastSeason - 1, { ground: 800, air: 800 }).filter(
    ({ kind }) => kind === 'reach',
  );
  foretold = foretell(own);
}, 400_000);

describe('reach ratings', () => {
  it('follow true skill more closely than the plain rate does', () => {
    const truth = reach.map((one) => one.truth);
    const rated = correlation(
      reach.map((one) => one.mean),
      truth,
    );
    const plain = correlation(
      reach.map((one) => one.rate),
      truth,
    );
    expect(rated, `rating ${rated.toFixed(3)}, plain ${plain.toFixed(3)}`).toBeGreaterThan(plain);
  });
});

describe('next season, by models and ratings that have not seen it', () => {
  it('is foretold better than by last year or by the mean', () => {
    const rating = forecastError(foretold, (one) => one.rating);
    expect(rating).toBeLessThan(forecastError(foretold, (one) => one.lastYear));
    expect(rating).toBeLessThan(forecastError(foretold, () => 0));
  });

  it('has its outs inside 80 % intervals four times in five', () => {
    const inside = foretoldInside(foretold, 80);
    expect(inside, `${foretold.length} men`).toBeGreaterThan(70);
    expect(inside).toBeLessThan(92);
  });
});
