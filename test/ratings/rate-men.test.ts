import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { sumEvidence } from '../../src/ratings/evidence.ts';
import { homePositions } from '../../src/ratings/home-positions.ts';
import { rateMen } from '../../src/ratings/rate-men.ts';
import { SkillRowList } from '../../src/ratings/skill-rows.ts';
import { fitSpreads } from '../../src/ratings/skill-spreads.ts';
import { openWindow } from '../../src/ratings/skill-window.ts';
import { addInvented } from './invented-rows.ts';

const MEN = 40;
const POSITION = 6;
const SPREAD = 0.5;
const [LINK, OWN, NOISE] = [0.04, 0.01, 0.12];
const WORTH = 0.6;

/** A league whose men have shifts and surpluses by the model itself; the true ratings beside what the method makes of it. */
function rateInvented(seed: number) {
  const random = createRandom(seed);
  const list = new SkillRowList();
  const men = Array.from({ length: MEN }, (_, man) => {
    const shift = SPREAD * random.normal();
    return { shift, surplus: LINK * shift + OWN * random.normal(), rows: 30 + 12 * man };
  });
  const logits = men.flatMap(({ shift, surplus, rows }, man) =>
    addInvented(list, random, {
      man,
      position: POSITION,
      shift,
      rows,
      worth: WORTH,
      logit: () => 2.5 * random.normal(),
      surplus: (outcome) => outcome * (surplus + NOISE * random.normal()),
    }),
  );
  const window = openWindow([sumEvidence(list.rows())], () => true);
  const spreads = fitSpreads(window, homePositions(window));
  const rated = rateMen(window, spreads, (_, of) => 100 / of.reduce((sum, { chances }) => sum + chances, 0));
  const chances = (shift: number) => logits.reduce((sum, logit) => sum + 1 / (1 + Math.exp(-logit - shift)), 0);
  const all = chances(0);
  const truth = men.map(({ shift, surplus }) => 100 * (WORTH * (chances(shift) / all - 1) + surplus));
  const weights = men.map(({ rows }) => rows);
  const zero = truth.reduce((sum, value, k) => sum + value * weights[k]!, 0) / weights.reduce((a, b) => a + b);
  return {
    link: spreads.facets.get(POSITION)!.surplus!,
    men: rated
      .filter(({ ballClass }) => ballClass === -1)
      .map(({ man, rating }) => ({ ...rating, truth: truth[man]! - zero })),
  };
}

const leagues = Array.from({ length: 12 }, (_, seed) => rateInvented(seed + 1));
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

describe('ratings of men who are drawn from the model', () => {
  it('find how the surplus goes with the shift', () => {
    // A league's slope has a standard error near .005.
    expect(Math.abs(mean(leagues.map(({ link }) => link.slope)) - LINK)).toBeLessThan(0.006);
    const own = mean(leagues.map(({ link }) => link.spread));
    expect(own).toBeGreaterThan(0.004);
    expect(own).toBeLessThan(0.016);
  });

  it('hold 80 % of the truths in their 80 % intervals, and are drawn in by the right amount', () => {
    const men = leagues.flatMap((league) => league.men);
    const inside = mean(men.map(({ mean: at, sd, truth }) => (Math.abs(truth - at) <= 1.2816 * sd ? 1 : 0)));
    // 480 men: a standard error of .018.
    expect(inside).toBeGreaterThan(0.75);
    expect(inside).toBeLessThan(0.85);
    const slope =
      men.reduce((sum, { mean: at, truth }) => sum + at * truth, 0) /
      men.reduce((sum, { mean: at }) => sum + at * at, 0);
    expect(Math.abs(slope - 1)).toBeLessThan(0.08);
  });

  it('leave out the surplus of rows that have none', () => {
    const list = new SkillRowList();
    for (let row = 0; row < 200; row += 1)
      list.add({
        man: row % 4,
        season: 1,
        game: row,
        position: 6,
        direction: 0,
        logit: 0,
        outcome: row % 2,
        worth: 1,
        surplus: 0,
      });
    const spreads = fitSpreads(
      openWindow([sumEvidence(list.rows())], () => true),
      new Map(),
    );
    expect(spreads.facets.get(6)!.surplus).toBeNull();
  });
});
