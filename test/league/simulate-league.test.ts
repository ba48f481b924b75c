import { expect, test } from 'vitest';
import { BALL_KINDS, MOVABLE_INFIELD, ON_FIRST, RESULTS } from '../../src/diamond/play-codes.ts';
import { simulateLeague } from '../../src/league/simulate-league.ts';
import { leagueRates } from '../../src/league/tables/league-rates.ts';
import { HOLE_SHARES } from '../../src/league/tables/make-holes.ts';
import { actualStarts, replayBall } from '../../src/league/truth/replay-ball.ts';
import { createRandom } from '../../src/numeric/random.ts';

const GROUND = BALL_KINDS.indexOf('ground');
const SMALL = { seasons: 1, teams: 4, seed: 3, ballsPerSeason: 400 };
const league = simulateLeague({ seasons: 2, teams: 12, seed: 1, ballsPerSeason: 5000 });
const { plays, truth } = league;
const rates = leagueRates(plays);
const grounders = Math.round(rates.kinds.ground! * plays.count);

/** Three standard errors of a share estimated from `count` cases. */
const slack = (share: number, count: number) => 3 * Math.sqrt((share * (1 - share)) / count);
/** Holds a share within a band of the game, widened by no more than its own sampling error. */
function expectBetween(share: number, least: number, most: number, count: number): void {
  expect(share).toBeGreaterThanOrEqual(least - slack(least, count));
  expect(share).toBeLessThanOrEqual(most + slack(most, count));
}

test('the same options give the same league to the last bit, another seed another', () => {
  const first = simulateLeague(SMALL);
  expect(simulateLeague(SMALL)).toEqual(first);
  const other = simulateLeague({ ...SMALL, seed: 4 });
  expect(other.plays.exitSpeedMph.slice(0, 50)).not.toEqual(first.plays.exitSpeedMph.slice(0, 50));
});

test('a longer league begins with the same first season', () => {
  const one = simulateLeague(SMALL);
  const two = simulateLeague({ ...SMALL, seasons: 2 });
  const n = one.plays.count;
  expect(two.truth.balls.exitSpeedMph.slice(0, n)).toEqual(one.truth.balls.exitSpeedMph);
  expect(Array.from(two.plays.season.slice(n)).every((season) => season === 2032)).toBe(true);
});

test('options out of range are refused with the value', () => {
  expect(() => simulateLeague({ ...SMALL, teams: 1 })).toThrow(/teams must be a whole number from 2 to 30, got 1/);
  expect(() => simulateLeague({ ...SMALL, seasons: 0.5 })).toThrow(/seasons .* got 0.5/);
});

test('rows are in canonical order and every season has its balls', () => {
  const keys = plays.playId.map((id, row) => `${plays.season[row]} ${id}`);
  expect([...keys].sort()).toEqual(keys);
  expect(new Set(plays.playId).size).toBe(plays.count);
  for (const season of [2031, 2032]) {
    const balls = plays.season.filter((year) => year === season).length;
    expect(balls).toBeGreaterThanOrEqual(5000);
    expect(balls).toBeLessThan(5100);
  }
  expect(plays.season.length).toBe(plays.count);
  expect(plays.startXFt.length).toBe(plays.count * 9);
});

test('the rates are those of the game', () => {
  expectBetween(rates.kinds.ground!, 0.43, 0.46, plays.count);
  expectBetween(rates.outs.ground!, 0.72, 0.78, grounders);
  expectBetween(rates.doubled, 0.08, 0.12, rates.outs.ground! * grounders);
  expect(rates.doubledWithForce).toBeGreaterThan(0.95);
  expectBetween(rates.grounderErrors, 0.02, 0.03, grounders);
  expectBetween(rates.outs.liner!, 0.25, 0.35, rates.kinds.liner! * plays.count);
  expectBetween(rates.outs.fly!, 0.8, 0.88, rates.kinds.fly! * plays.count);
  expectBetween(rates.outs.popup!, 0.97, 1, rates.kinds.popup! * plays.count);
  const by = rates.gatheredBy;
  expect(Math.min(by[4]!, by[6]!)).toBeGreaterThan(Math.max(by[3]!, by[5]!));
  expect(Math.min(by[3]!, by[5]!)).toBeGreaterThan(by[1]! - slack(by[1]!, grounders));
});

test('all nine gather balls, and a hot grounder at third takes no longer than the trade says', () => {
  const by = new Set(plays.gatheredBy);
  for (let p = 1; p <= 9; p += 1) expect(by.has(p)).toBe(true);
  const times: number[] = [];
  for (let row = 0; row < plays.count; row += 1) {
    const hot = plays.ballKind[row] === GROUND && plays.exitSpeedMph[row]! > 95 && plays.gatheredBy[row] === 5;
    if (hot && plays.gatherTimeS[row]! > 0) times.push(plays.gatherTimeS[row]!);
  }
  const mean = times.reduce((sum, time) => sum + time, 0) / times.length;
  // A usual release of .88 s and some 125 ft of throw at 84 mph follow: 3 to 3.5 s in all (common practice).
  expect(mean + 0.88 + 1.12).toBeGreaterThan(2.8);
  expect(mean + 0.88 + 1.12).toBeLessThan(3.5);
});

test('outs, runners and runs fit together inning by inning', () => {
  let [row, halves] = [0, 0];
  while (row < plays.count) {
    const same = (k: number) =>
      plays.game[k] === plays.game[row] &&
      plays.inning[k] === plays.inning[row] &&
      plays.fieldingTeam[k] === plays.fieldingTeam[row];
    let end = row;
    while (end < plays.count && same(end)) end += 1;
    for (let k = row; k < end; k += 1) {
      const after = plays.outsBefore[k]! + plays.outsMade[k]!;
      expect(after).toBeLessThanOrEqual(3);
      if (after === 3) expect(k).toBe(end - 1);
      if (k + 1 < end) {
        expect(plays.outsBefore[k + 1]!).toBeGreaterThanOrEqual(after);
        expect(plays.runsRestOfInning[k]! - plays.runsScored[k]!).toBeGreaterThanOrEqual(
          plays.runsRestOfInning[k + 1]!,
        );
      }
      expect(plays.runsScored[k]!).toBeLessThanOrEqual(plays.runsRestOfInning[k]!);
    }
    halves += 1;
    row = end;
  }
  expect(halves).toBeGreaterThan(1000);
});

test('runs and outs on a play never exceed the men there are', () => {
  for (let row = 0; row < plays.count; row += 1) {
    const on = [1, 2, 4].filter((bit) => plays.bases[row]! & bit).length;
    expect(plays.runsScored[row]! + plays.outsMade[row]!).toBeLessThanOrEqual(on + 1);
    if (plays.result[row] === RESULTS.indexOf('out')) expect(plays.outsMade[row]!).toBeGreaterThan(0);
    if (plays.ballKind[row] === GROUND && plays.outsMade[row] === 2) expect(plays.bases[row]! & ON_FIRST).toBeTruthy();
  }
});

test('holes have their shares, and the truth has none', () => {
  let [noStarts, noTime, outcomeOnly, noLaunch, partial] = [0, 0, 0, 0, 0];
  for (let row = 0; row < plays.count; row += 1) {
    const blank = MOVABLE_INFIELD.filter((p) => Number.isNaN(plays.startXFt[row * 9 + p - 1]!)).length;
    if (blank === 4) noStarts += 1;
    else if (blank > 0) partial += 1;
    if (plays.gatherSeen[row] === 0) {
      outcomeOnly += 1;
      expect([plays.gatheredBy[row], plays.touchedBy[row], plays.throwTo[row]]).toEqual([0, 0, 0]);
      expect(plays.gatherTimeS[row]).toBeNaN();
      expect(plays.gatherXFt[row]).toBeNaN();
    } else if (plays.gatheredBy[row]! > 0 && Number.isNaN(plays.gatherTimeS[row]!)) noTime += 1;
    if (Number.isNaN(plays.exitSpeedMph[row]!)) noLaunch += 1;
    if (plays.outsMade[row]! > 0 && plays.gatherSeen[row] === 1) expect(plays.gatheredBy[row]).toBeGreaterThan(0);
  }
  expect(partial).toBe(0);
  const near = (count: number, share: number) =>
    expect(Math.abs(count / plays.count - share)).toBeLessThan(slack(share, plays.count));
  near(noStarts, HOLE_SHARES.starts);
  near(outcomeOnly, HOLE_SHARES.outcomeOnly);
  near(
    noTime,
    HOLE_SHARES.gatherTime *
      (1 - HOLE_SHARES.outcomeOnly) *
      (1 - plays.gatheredBy.filter((p) => p === 0).length / plays.count),
  );
  near(noLaunch, HOLE_SHARES.launch);
  expect(truth.balls.startXFt.every(Number.isFinite)).toBe(true);
  expect(truth.balls.exitSpeedMph.every((speed) => speed > 0)).toBe(true);
});

test('replays with the men and starts of the day come out as the league did', () => {
  const random = createRandom(17);
  const starts = new Float64Array(18);
  const replays = 4;
  const recorded = new Float64Array(2);
  const replayed = new Float64Array(2);
  let variance = 0;
  for (let row = 0; row < plays.count; row += 1) {
    if (plays.ballKind[row] !== GROUND) continue;
    actualStarts(truth, row, starts);
    let outs = 0;
    for (let k = 0; k < replays; k += 1) {
      const { outsMade } = replayBall(truth, row, { starts, men: 'actual', random: random.next });
      if (outsMade > 0) outs += 1;
      replayed[1]! += outsMade / replays;
    }
    const share = outs / replays;
    variance += (share * (1 - share) * replays) / (replays - 1);
    recorded[0]! += plays.outsMade[row]! > 0 ? 1 : 0;
    recorded[1]! += plays.outsMade[row]!;
    replayed[0]! += share;
  }
  const error = Math.sqrt(variance * (1 + 1 / replays));
  expect(Math.abs(recorded[0]! - replayed[0]!)).toBeLessThan(3 * error);
  // A second out doubles a play's weight: its error is at most twice as large.
  expect(Math.abs(recorded[1]! - replayed[1]!)).toBeLessThan(6 * error);
});

test('a replay asks its generator only: same numbers, same outcome', () => {
  const starts = actualStarts(truth, 40);
  const replay = () => replayBall(truth, 40, { starts, men: 'average', random: createRandom(9).next });
  expect(replay()).toEqual(replay());
  expect(() => replayBall(truth, plays.count, { starts, men: 'average', random: Math.random })).toThrow(RangeError);
});

test('placement habits matter: shading badly costs outs against other clubs, overshifting gains them', () => {
  const random = createRandom(23);
  const starts = new Float64Array(18);
  const gain: Record<string, number> = {};
  const rows: number[] = [];
  for (let row = 0; row < plays.count; row += 1)
    if (plays.ballKind[row] === GROUND && plays.bases[row] === 0) rows.push(row);
  for (const row of rows) {
    const { habit } = truth.habits[plays.fieldingTeam[row]!]!;
    for (let k = 0; k < 3; k += 1) {
      const draw = random.integer(rows.length);
      let like = draw;
      while (plays.batterSide[rows[like]!] !== plays.batterSide[row]) like = (like + 1) % rows.length;
      const own = replayBall(truth, row, {
        starts: actualStarts(truth, row, starts),
        men: 'average',
        random: random.next,
      });
      const other = replayBall(truth, row, {
        starts: actualStarts(truth, rows[like]!, starts),
        men: 'average',
        random: random.next,
      });
      gain[habit] = (gain[habit] ?? 0) + (own.outsMade > 0 ? 1 : 0) - (other.outsMade > 0 ? 1 : 0);
    }
  }
  expect(gain['shading badly']!).toBeLessThan(0);
  expect(gain.overshifting!).toBeGreaterThan(0);
  expect(gain['shading well']!).toBeGreaterThan(gain['shading badly']!);
});
