import { beforeAll, describe, expect, it } from 'vitest';
import { selectGrounders } from '../../src/chances/grounders.ts';
import { turnFits } from '../../src/chances/turn-model.ts';
import { POSITION_COUNT } from '../../src/diamond/play-codes.ts';
import type { DemoLeague } from '../../src/league/demo-league.ts';
import { pivotS } from '../../src/league/physics/infield-play.ts';
import { SKILL_STRIDE } from '../../src/league/physics/men.ts';
import { simulateLeague } from '../../src/league/simulate-league.ts';
import { EntryList } from '../../src/ledger/entry-list.ts';
import { addTurns, type TurnBalance } from '../../src/ledger/turn-entries.ts';
import { FLAT_TURN_STAKE_RUNS } from '../../src/ledger/turn-stake.ts';
import { fitHere } from '../../src/models/fitting.ts';

const FEWEST_TURNS = 60;

/** The flat stake for each of so many grounders. */
const flatStake = (count: number) => new Float64Array(count).fill(FLAT_TURN_STAKE_RUNS);

/** One man at one position in one part: his turns, the mean of his entries, and how fast he truly turns a ball. */
interface Turner {
  readonly position: number;
  readonly turns: number;
  readonly rate: number;
  readonly quicknessS: number;
}

/** Correlation of rate and quickness within the positions, and the lower end of its 95 % interval (Fisher's z). */
function follow(turners: readonly Turner[]): { n: number; r: number; lo95: number } {
  const positions = [...new Set(turners.map(({ position }) => position))];
  let [xy, xx, yy] = [0, 0, 0];
  for (const each of positions) {
    const own = turners.filter(({ position }) => position === each);
    const mean = (value: (turner: Turner) => number) =>
      own.reduce((sum, turner) => sum + value(turner), 0) / own.length;
    const [x, y] = [mean(({ quicknessS }) => quicknessS), mean(({ rate }) => rate)];
    for (const { quicknessS, rate } of own) {
      xy += (quicknessS - x) * (rate - y);
      xx += (quicknessS - x) ** 2;
      yy += (rate - y) ** 2;
    }
  }
  const r = xy / Math.sqrt(xx * yy);
  const free = turners.length - positions.length - 2;
  return { n: turners.length, r, lo95: Math.tanh(Math.atanh(r) - 1.96 / Math.sqrt(free)) };
}

describe('turns against the truth of three demo seasons', () => {
  let turners: { pivots: Turner[]; starters: Turner[] };
  let balance: TurnBalance[];

  beforeAll(() => {
    const league = simulateLeague({ seasons: 3, teams: 10, seed: 1, ballsPerSeason: 20_000 });
    const grounders = selectGrounders(league.plays);
    const entries = new EntryList(16);
    balance = addTurns({ entries }, grounders, fitHere(turnFits(grounders)), flatStake(grounders.count));
    const pivots = new Map<string, number[]>();
    const starters = new Map<string, number[]>();
    const { table, row } = grounders;
    for (let e = 0; e < entries.count; e += 1) {
      const play = row[entries.play[e]!]!;
      const position = entries.position[e]!;
      if (position !== 4 && position !== 6) continue;
      const key = `${position} ${table.fielder[play * POSITION_COUNT + position - 1]}`;
      const part = table.gatheredBy[play] === position ? starters : pivots;
      part.set(key, [...(part.get(key) ?? []), entries.outs[e]!]);
    }
    turners = { pivots: turnersOf(pivots, league), starters: turnersOf(starters, league) };
  });

  function turnersOf(entries: Map<string, number[]>, { truth }: DemoLeague): Turner[] {
    return [...entries]
      .filter(([, own]) => own.length >= FEWEST_TURNS)
      .map(([key, own]) => {
        const [position, person] = key.split(' ').map(Number);
        const skills = truth.skills.subarray(person! * SKILL_STRIDE, (person! + 1) * SKILL_STRIDE);
        const rate = own.reduce((sum, outs) => sum + outs, 0) / own.length;
        return { position: position!, turns: own.length, rate, quicknessS: -pivotS(1, skills) };
      });
  }

  it("a pivot's turn follows his arm and release", () => {
    const { n, r, lo95 } = follow(turners.pivots);
    expect(n).toBeGreaterThanOrEqual(15);
    expect(r).toBeGreaterThan(0.6);
    expect(lo95).toBeGreaterThan(0.3);
  });

  it("a starter's turn follows them, too", () => {
    const { n, lo95 } = follow(turners.starters);
    expect(n).toBeGreaterThanOrEqual(15);
    expect(lo95).toBeGreaterThan(0.3);
  });

  it('balances without a large shift in any season', () => {
    expect(balance.map(({ season }) => season)).toEqual([2031, 2032, 2033]);
    for (const { plays, made, gathered, thrown, totalOuts } of balance) {
      expect(Math.abs(totalOuts)).toBeLessThan(1e-8);
      // p(1 - p) is about 0.11 on average, the Brier score of the chance: four standard errors.
      const limit = 4 / Math.sqrt(0.11 * plays);
      expect(Math.abs(gathered)).toBeLessThan(limit);
      expect(Math.abs(thrown)).toBeLessThan(limit);
      expect(made / plays).toBeGreaterThan(0.3);
    }
  });
});
