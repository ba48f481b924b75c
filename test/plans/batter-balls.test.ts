import { beforeAll, describe, expect, it } from 'vitest';
import { selectAirBalls } from '../../src/chances/air/air-balls.ts';
import { projectFlights } from '../../src/chances/air/carry.ts';
import { selectGrounders } from '../../src/chances/grounders.ts';
import type { PlayTable } from '../../src/chances/play-table.ts';
import { simulateLeague } from '../../src/league/simulate-league.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { type BatterBalls, fitBatterBalls, prepareLeagueSide } from '../../src/plans/batter-balls.ts';
import { BALL_SETTINGS, HeldOutBalls } from '../../src/plans/choose-ball-settings.ts';
import { drawBalls, INFIELD_COUNTS, judgingBalls } from '../../src/plans/draw-balls.ts';
import { collectSeenBalls, GROUND, type SeenBalls } from '../../src/plans/seen-balls.ts';
import { someBatters } from './held-out.ts';
import { scorePitchers, withGivers } from './pitcher-held-out.ts';

let table: PlayTable;
let balls: SeenBalls;
let batter: BatterBalls;

beforeAll(() => {
  table = simulateLeague({ seasons: 1, teams: 4, seed: 3, ballsPerSeason: 9000 }).plays;
  const air = selectAirBalls(table);
  balls = collectSeenBalls(selectGrounders(table), air, projectFlights(air, { fitted: null }));
  const numbers = [...balls.row.keys()];
  const right = numbers.filter((k) => table.batterSide[balls.row[k]!] === 1);
  const own = right.filter((k) => table.batter[balls.row[k]!] === table.batter[balls.row[right[0]!]!]);
  batter = fitBatterBalls(table, prepareLeagueSide(balls, right), own, table.date.at(-1)!, BALL_SETTINGS);
}, 120_000);

const heldOut = (batters: number, most: number) =>
  new HeldOutBalls(table, balls, someBatters(table, balls, batters, most));

describe('held-out balls of later and earlier games', () => {
  it.each([60, 300])(
    'are likelier with a batter drawn toward his league (%i balls at most) than by either alone',
    (most) => {
      const { league, own, drawn, balls: n } = heldOut(14, most).score(BALL_SETTINGS);
      const said = `${n} balls: league ${league.toFixed(4)}, own ${own.toFixed(4)}, drawn ${drawn.toFixed(4)}`;
      expect(n).toBeGreaterThan(600);
      expect(drawn, said).toBeGreaterThan(league);
      expect(drawn, said).toBeGreaterThan(own);
    },
  );

  it('are likelier with the tilt than without, and with the shipped settings than with far ones', () => {
    const asked = heldOut(14, 300);
    const chosen = asked.score(BALL_SETTINGS).drawn;
    expect(chosen).toBeGreaterThan(asked.score({ ...BALL_SETTINGS, precision: 1e9 }).drawn);
    expect(chosen).toBeGreaterThan(asked.score({ ...BALL_SETTINGS, leagueWeight: 20 }).drawn);
    expect(chosen).toBeGreaterThan(asked.score({ ...BALL_SETTINGS, bandwidth: 0.2 }).drawn);
  });
});

describe('balls off a pitcher', () => {
  it('are likelier leaned toward what he gives up where pitchers differ, and hardly less likely where they do not', () => {
    const alike = scorePitchers(table, balls, someBatters(table, balls, 8, 100), BALL_SETTINGS);
    const given = withGivers(table, balls, 0.5);
    const differing = scorePitchers(table, given, someBatters(table, given, 8, 100), BALL_SETTINGS);
    expect(differing.leaned - differing.drawn).toBeGreaterThan(0.01);
    expect(alike.leaned - alike.drawn).toBeGreaterThan(-0.01);
  });
});

describe('a sample', () => {
  it('stands for all balls, is the same for the same seed, and keeps to fair ground', () => {
    const draw = () => drawBalls(batter, INFIELD_COUNTS, null, null, createRandom(4));
    const sample = draw();
    expect(sample).toEqual(draw());
    expect(sample.count).toBeGreaterThanOrEqual(400);
    expect(sample.weight.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
    for (const bearing of sample.bearingDeg) expect(Math.abs(bearing)).toBeLessThanOrEqual(45);
  });

  it('has the same share of grounders and their mean bearing as the other balls that a plan is judged by', () => {
    const sample = drawBalls(batter, INFIELD_COUNTS, null, null, createRandom(4));
    const other = judgingBalls(batter, null, null, createRandom(5));
    const mean = (of: typeof sample, value: (k: number) => number) =>
      of.weight.reduce((sum, weight, k) => sum + weight * value(k), 0);
    const grounders = (of: typeof sample) => mean(of, (k) => (of.kind[k] === GROUND ? 1 : 0));
    const bearing = (of: typeof sample) =>
      mean(of, (k) => (of.kind[k] === GROUND ? of.bearingDeg[k]! : 0)) / grounders(of);
    expect(Math.abs(bearing(sample) - bearing(other))).toBeLessThan(0.4);
    expect(Math.abs(grounders(sample) - grounders(other))).toBeLessThan(0.03);
  });
});
