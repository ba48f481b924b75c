import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { sumEvidence } from '../../src/ratings/evidence.ts';
import { about, type Cell, ManPosterior, normalCell } from '../../src/ratings/man-posterior.ts';
import { SPREAD_GRID } from '../../src/ratings/man-spread.ts';
import { restrictedEvidence } from '../../src/ratings/restricted-evidence.ts';
import { SkillRowList } from '../../src/ratings/skill-rows.ts';
import { openWindow } from '../../src/ratings/skill-window.ts';
import { addInvented } from './invented-rows.ts';

const POSITION = 5;
const SPREAD = 0.5;
const MEN = 12;

/** Cells of the men of one invented league, after its zero was found from their own chances. */
function inventMen(seed: number): (readonly [Cell])[] {
  const random = createRandom(seed);
  const list = new SkillRowList();
  for (let man = 0; man < MEN; man += 1) {
    const shift = SPREAD * random.normal();
    const logit = () => 1 + 1.5 * random.normal();
    addInvented(list, random, { man, position: POSITION, shift, rows: 60 + 20 * man, worth: 1, logit });
  }
  const window = openWindow([sumEvidence(list.rows())], () => true);
  return window.facets.get(POSITION)!.men.map(({ all }) => [all] as const);
}

describe('the restricted evidence of a spread', () => {
  it('is largest at the true one over many small leagues, where the plain one falls short', () => {
    const leagues = Array.from({ length: 120 }, (_, seed) => inventMen(seed + 1));
    const posterior = new ManPosterior();
    const plain = (men: readonly (readonly Cell[])[], spread: number) =>
      men.reduce((sum, cells) => {
        posterior.fit(cells, Float64Array.of(spread * spread));
        return sum + posterior.logEvidence;
      }, 0);
    const restricted = (men: readonly (readonly Cell[])[], spread: number) =>
      restrictedEvidence(men, () => Float64Array.of(spread * spread));
    const largest = (evidence: typeof plain) => {
      const values = SPREAD_GRID.map((spread) => leagues.reduce((sum, men) => sum + evidence(men, spread), 0));
      const best = values.indexOf(values.reduce((a, b) => Math.max(a, b)));
      return SPREAD_GRID[best]!;
    };
    // A step of the grid there is .05; 1,440 men know the spread to some .012.
    expect(Math.abs(largest(restricted) - SPREAD)).toBeLessThanOrEqual(0.026);
    expect(largest(plain)).toBeLessThan(largest(restricted));
  });

  it('does not change when all men are moved together, normal evidence given', () => {
    const values = [0.3, -0.2, 0.8, -0.6, 0.1];
    const evidence = (by: number) =>
      restrictedEvidence(
        values.map((value) => [normalCell(4, 4 * (value + by), 1)]),
        () => Float64Array.of(0.25),
      ) -
      restrictedEvidence(
        values.map((value) => [normalCell(4, 4 * (value + by), 1)]),
        () => Float64Array.of(0),
      );
    expect(Math.abs(evidence(0.7) - evidence(0))).toBeLessThan(1e-12);
  });
});

it('says of a common mean what the evidence about other means says', () => {
  const posterior = new ManPosterior();
  const cells = [normalCell(7, 2.1, 0.8), normalCell(3, -0.4, 0.8)];
  const prior = Float64Array.of(0.4, 0.3, 0.3, 0.5);
  const at = (mean: number) => {
    posterior.fit(
      cells.map((cell) => about(mean, cell)),
      prior,
    );
    // Each is against the same outcomes at its own mean.
    const own = cells.map(({ curve, done }) => {
      curve.at(mean);
      return done * mean - curve.integral;
    });
    return posterior.logEvidence + own[0]! + own[1]!;
  };
  const [below, here, above] = [at(-0.1), at(0), at(0.1)];
  posterior.fit(cells, prior);
  expect(posterior.score).toBeCloseTo((above - below) / 0.2, 10);
  expect(posterior.information).toBeCloseTo((2 * here - above - below) / 0.01, 8);
});
