import { beforeAll, describe, expect, it } from 'vitest';
import { AIR_MEN, type AirBalls, selectAirBalls } from '../../src/chances/air/air-balls.ts';
import { type AirModels, fitAirModels } from '../../src/chances/air/air-models.ts';
import { projectFlights } from '../../src/chances/air/carry.ts';
import { chooseEvenDraws, type DrawSettings } from '../../src/chances/even-draws.ts';
import { FULL } from '../../src/chances/grades.ts';
import { BALL_KINDS } from '../../src/diamond/play-codes.ts';
import type { DemoLeague } from '../../src/league/demo-league.ts';
import { allocateBallPath, STEP_S } from '../../src/league/physics/ball-path.ts';
import { runFt } from '../../src/league/physics/meet-ball.ts';
import { FIRST_STEP, LATE_STEP_S, SKILL_STRIDE, TOP_SPEED } from '../../src/league/physics/men.ts';
import { simulateLeague } from '../../src/league/simulate-league.ts';
import { actualStarts, replayBall } from '../../src/league/truth/replay-ball.ts';
import { traceRow } from '../../src/league/truth/trace-row.ts';
import type { ClassLedger } from '../../src/ledger/class-ledger.ts';
import { REACH } from '../../src/ledger/entry-kinds.ts';
import { scoreAir } from '../../src/ledger/score-air.ts';
import { shiftByOdds } from '../../src/numeric/logistic.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { SILENT } from '../../src/progress.ts';

const DRAWS: DrawSettings = { draws: 24, window: 'rolling', seed: 1 };
const OUTFIELD = [7, 8, 9];
const LINER = BALL_KINDS.indexOf('liner');

let league: DemoLeague;
let balls: AirBalls;
let models: AirModels;
let ledger: ClassLedger;

beforeAll(() => {
  league = simulateLeague({ seasons: 3, teams: 12, seed: 1 });
  balls = selectAirBalls(league.plays);
  models = fitAirModels(balls, SILENT);
  const stake = new Float64Array(balls.count).fill(0.75);
  ledger = scoreAir(balls, models, stake, DRAWS, SILENT);
});

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

function correlation(a: readonly number[], b: readonly number[]): number {
  const [ma, mb] = [mean(a), mean(b)];
  const sum = (f: (k: number) => number) => a.reduce((total, _, k) => total + f(k), 0);
  const ab = sum((k) => (a[k]! - ma) * (b[k]! - mb));
  return ab / Math.sqrt(sum((k) => (a[k]! - ma) ** 2) * sum((k) => (b[k]! - mb) ** 2));
}

function ranks(values: readonly number[]): number[] {
  const order = [...values.keys()].sort((i, j) => values[i]! - values[j]!);
  const rank: number[] = [];
  order.forEach((k, place) => {
    rank[k] = place;
  });
  return rank;
}

describe('balls in the air against the truth of the demo league', () => {
  it('takes the flight of a caught ball on to where it would have come down', () => {
    const flights = projectFlights(balls, models.carry);
    const path = allocateBallPath();
    const missed: number[] = [];
    const missedAsRecorded: number[] = [];
    for (let at = 0; at < balls.count; at += 7) {
      const row = balls.row[at]!;
      if (balls.kind[at] !== LINER || balls.inGlove[at] === 0 || Number.isNaN(balls.exitSpeedMph[at]!)) continue;
      traceRow(league.truth.balls, row, path);
      const truly = Math.hypot(path.x[path.landing]!, path.y[path.landing]!);
      missed.push(Math.hypot(flights.distanceFt[at]! - truly, 50 * (flights.hangS[at]! - path.landing * STEP_S)));
      missedAsRecorded.push(Math.abs(Math.hypot(balls.landingXFt[at]!, balls.landingYFt[at]!) - truly));
    }
    expect(missed.length).toBeGreaterThan(300);
    // Feet, a tenth of a second of hang time counted as five. As recorded, catches are tens of feet nearer home.
    expect(mean(missedAsRecorded)).toBeGreaterThan(15);
    expect(mean(missed)).toBeLessThan(4);
  });

  it('has a set mark that replays of the same ball and placement confirm', () => {
    const random = createRandom(20_313).next;
    const starts = new Float64Array(18);
    const REPLAYS = 100;
    const set: number[] = [];
    const replayed: number[] = [];
    const kinds: number[] = [];
    for (let at = 0; at < balls.count; at += 40) {
      if (ledger.grade[at] !== FULL) continue;
      const row = balls.row[at]!;
      actualStarts(league.truth, row, starts);
      let outs = 0;
      for (let k = 0; k < REPLAYS; k += 1) {
        if (replayBall(league.truth, row, { starts, men: 'average', random }).outsMade > 0) outs += 1;
      }
      set.push(ledger.set[at]!);
      replayed.push(outs / REPLAYS);
      kinds.push(balls.kind[at]!);
    }
    const rootMeanSquare = Math.sqrt(mean(set.map((s, k) => (s - replayed[k]!) ** 2)));
    expect(set.length).toBeGreaterThan(800);
    expect(correlation(set, replayed)).toBeGreaterThanOrEqual(0.95);
    expect(rootMeanSquare).toBeLessThanOrEqual(0.1);
    for (const kind of new Set(kinds)) {
      const own = (values: readonly number[]) => mean(values.filter((_, k) => kinds[k] === kind));
      expect(Math.abs(own(set) - own(replayed))).toBeLessThan(0.03);
    }
  });

  it('is near the outs before it is balanced: nobody falls between two men who can both have the ball', () => {
    const short = new Map<number, { raw: number; closed: number; plays: number }>();
    for (let at = 0; at < balls.count; at += 1) {
      if (ledger.grade[at] !== FULL) continue;
      const { kind, set } = ledger.balance.groups[ledger.balance.groupOf[at]!]!;
      const own = short.get(kind) ?? { raw: 0, closed: 0, plays: 0 };
      own.raw += shiftByOdds(ledger.set[at]!, Math.exp(-set));
      own.closed += balls.closed[at]!;
      own.plays += 1;
      short.set(kind, own);
    }
    // In outs a ball; taken one man after the other flies were .0072 short and popups .0070 (decision 026).
    const off = [...short.values()].map(({ raw, closed, plays }) => Math.abs(closed - raw) / plays);
    expect(off).toHaveLength(3);
    expect(Math.max(...off)).toBeLessThan(0.0055);
  });

  it('has placement that replays with the very draws confirm', () => {
    const REPLAYS_A_DRAW = 8;
    const { draws, source } = chooseEvenDraws(balls, DRAWS);
    const random = createRandom(20_314).next;
    const starts = new Float64Array(2 * AIR_MEN);
    const outRate = (row: number, replays: number) => {
      let outs = 0;
      for (let k = 0; k < replays; k += 1) {
        if (replayBall(league.truth, row, { starts, men: 'average', random }).outsMade > 0) outs += 1;
      }
      return outs / replays;
    };
    const placement: number[] = [];
    const replayed: number[] = [];
    for (let at = 0; at < balls.count; at += 70) {
      // Balls that nobody or everybody gets say nothing of placement.
      if (ledger.grade[at] !== FULL || Math.abs(ledger.opening[at]! - 0.5) > 0.48) continue;
      const row = balls.row[at]!;
      actualStarts(league.truth, row, starts);
      const there = outRate(row, REPLAYS_A_DRAW * draws);
      let elsewhere = 0;
      for (let d = 0; d < draws; d += 1) {
        const lender = source[at * draws + d]! * 2 * AIR_MEN;
        for (let k = 4; k < 2 * AIR_MEN; k += 1) starts[k] = balls.starts[lender + k]!;
        elsewhere += outRate(row, REPLAYS_A_DRAW) / draws;
      }
      placement.push(ledger.set[at]! - ledger.opening[at]!);
      replayed.push(there - elsewhere);
    }
    expect(placement.length).toBeGreaterThan(150);
    expect(correlation(placement, replayed)).toBeGreaterThanOrEqual(0.95);
    // Neither shrunk nor blown up.
    const spread = (values: readonly number[]) => Math.sqrt(mean(values.map((v) => (v - mean(values)) ** 2)));
    const slope = (correlation(placement, replayed) * spread(replayed)) / spread(placement);
    expect(Math.abs(slope - 1)).toBeLessThan(0.1);
  });

  it('ranks outfielders by reach a chance as their true first step and speed do', () => {
    const FEWEST_CHANCES = 100;
    const FLIGHT_S = 4;
    const { skills, averageSkills } = league.truth;
    const feetRun = (of: Float64Array, from: number, position: number) =>
      runFt(FLIGHT_S - of[from + FIRST_STEP]! - LATE_STEP_S[position]!, of[from + TOP_SPEED]!);
    const rates: number[] = [];
    const feet: number[] = [];
    for (const position of OUTFIELD) {
      const first = rates.length;
      const chances = new Map<number, number>();
      const reach = new Map<number, number>();
      const manOf = (at: number) => balls.table.fielder[balls.row[at]! * 9 + position - 1]!;
      for (let at = 0; at < balls.count; at += 1)
        chances.set(manOf(at), (chances.get(manOf(at)) ?? 0) + ledger.chance[at * 9 + position - 1]!);
      const { entries } = ledger;
      for (let e = 0; e < entries.count; e += 1) {
        if (entries.kind[e] !== REACH || entries.position[e] !== position) continue;
        const man = manOf(entries.play[e]!);
        reach.set(man, (reach.get(man) ?? 0) + entries.outs[e]!);
      }
      for (const [man, own] of chances) {
        if (own < FEWEST_CHANCES) continue;
        rates.push((reach.get(man) ?? 0) / own);
        feet.push(
          feetRun(skills, man * SKILL_STRIDE, position) - feetRun(averageSkills, position * SKILL_STRIDE, position),
        );
      }
      // Ranks of a dozen men turn on near ties, so each position is held to the plain correlation, all together to ranks.
      expect(rates.length - first).toBeGreaterThanOrEqual(10);
      expect(correlation(rates.slice(first), feet.slice(first))).toBeGreaterThanOrEqual(0.8);
    }
    expect(correlation(ranks(rates), ranks(feet))).toBeGreaterThanOrEqual(0.8);
  });
});
