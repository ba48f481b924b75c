import { expect, test } from 'vitest';
import { isOvershift } from '../../../src/diamond/alignment-sides.ts';
import { legalTwoASide, TWO_A_SIDE_CLEAR_OF_BAG } from '../../../src/diamond/playing-rules.ts';
import { simulateLeague } from '../../../src/league/simulate-league.ts';

const SMALL = { seasons: 3, teams: 4, seed: 3, ballsPerSeason: 700 };
const withRule = simulateLeague(SMALL);

/** Seen infields of a season: how many, how many in overshift, how many the rule forbids, and how many its stricter reading. */
function judge({ plays }: typeof withRule, season: number) {
  const found = { seen: 0, overshifts: 0, forbidden: 0, forbiddenStrictly: 0 };
  const starts = new Float64Array(12);
  for (let row = 0; row < plays.count; row += 1) {
    if (plays.season[row] !== season) continue;
    for (let k = 0; k < 6; k += 1) {
      starts[2 * k] = plays.startXFt[row * 9 + k]!;
      starts[2 * k + 1] = plays.startYFt[row * 9 + k]!;
    }
    const { legal } = legalTwoASide(starts, 0);
    if (legal === null) continue;
    found.seen += 1;
    if (isOvershift(starts, 0)) found.overshifts += 1;
    if (!legal) found.forbidden += 1;
    if (!legalTwoASide(starts, 0, TWO_A_SIDE_CLEAR_OF_BAG).legal) found.forbiddenStrictly += 1;
  }
  return found;
}

test('from the third season on no infield breaks the two-a-side rule, by either reading; before it many do', () => {
  for (const season of [2031, 2032]) {
    const { seen, overshifts, forbidden } = judge(withRule, season);
    expect(overshifts / seen).toBeGreaterThan(0.08);
    expect(forbidden).toBeGreaterThan(overshifts);
  }
  const { seen, ...faults } = judge(withRule, 2033);
  expect(seen).toBeGreaterThan(500);
  expect(faults).toEqual({ overshifts: 0, forbidden: 0, forbiddenStrictly: 0 });
});

test('the rule may begin in any season or never, and changes nothing before', () => {
  const never = simulateLeague({ ...SMALL, twoASideFrom: 2034 });
  const first = never.plays.season.indexOf(2033);
  expect(never.plays.startXFt.slice(0, first * 9)).toEqual(withRule.plays.startXFt.slice(0, first * 9));
  expect(judge(never, 2033).overshifts).toBeGreaterThan(0);
  expect(judge(simulateLeague({ ...SMALL, seasons: 1, twoASideFrom: 2031 }), 2031).forbidden).toBe(0);
});
