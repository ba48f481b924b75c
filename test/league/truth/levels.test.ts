import { expect, test } from 'vitest';
import { BALL_KINDS } from '../../../src/diamond/play-codes.ts';
import { FIRST_STEP, SKILL_STRIDE, TOP_SPEED } from '../../../src/league/physics/men.ts';
import { allocateDepths, straightUp, toStarts } from '../../../src/league/scenario/usual-starts.ts';
import { simulateLeague } from '../../../src/league/simulate-league.ts';
import { replayBall } from '../../../src/league/truth/replay-ball.ts';
import { standardRows } from '../../../src/league/truth/standard-balls.ts';
import { createRandom } from '../../../src/numeric/random.ts';

const { truth, fieldTime } = simulateLeague({ seasons: 1, teams: 12, seed: 5, ballsPerSeason: 4000 });
const { levels } = truth;
const at = (position: number) => [...levels.person.keys()].filter((k) => levels.position[k] === position);

function correlation(a: readonly number[], b: readonly number[]): number {
  const mean = (v: readonly number[]) => v.reduce((sum, x) => sum + x, 0) / v.length;
  const [ma, mb] = [mean(a), mean(b)];
  let [ab, aa, bb] = [0, 0, 0];
  for (let k = 0; k < a.length; k += 1) {
    ab += (a[k]! - ma) * (b[k]! - mb);
    aa += (a[k]! - ma) ** 2;
    bb += (b[k]! - mb) ** 2;
  }
  return ab / Math.sqrt(aa * bb);
}

test('everybody who played an infield position has one level there', () => {
  const played = new Set<string>();
  for (let k = 0; k < fieldTime.position.length; k += 1) {
    if (fieldTime.position[k]! <= 6) played.add(`${fieldTime.fielder[k]} ${fieldTime.position[k]}`);
  }
  const measured = [...levels.person].map((who, k) => `${who} ${levels.position[k]}`);
  expect(new Set(measured)).toEqual(played);
  expect(measured.length).toBe(played.size);
});

test('levels of the middle infielders spread as far as the game lets a season see', () => {
  for (const position of [4, 6]) {
    const reach = at(position).map((k) => levels.trueReach[k]!);
    const mean = reach.reduce((sum, x) => sum + x, 0) / reach.length;
    const spread = Math.sqrt(reach.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (reach.length - 1));
    expect(Math.abs(mean)).toBeLessThan(3);
    expect(spread).toBeGreaterThan(2.4);
    expect(spread).toBeLessThan(6.5);
  }
});

test('quick, fast men have the better levels', () => {
  const shortstops = at(6);
  const skill = (k: number, which: number) => truth.skills[levels.person[k]! * SKILL_STRIDE + which]!;
  const reach = shortstops.map((k) => levels.trueReach[k]!);
  expect(
    correlation(
      reach,
      shortstops.map((k) => skill(k, TOP_SPEED) / 1.5 - skill(k, FIRST_STEP) / 0.056),
    ),
  ).toBeGreaterThan(0.5);
});

test('a level of reach is what replays of the standard balls show', () => {
  const shortstops = at(6);
  const order = [...shortstops].sort((a, b) => levels.trueReach[a]! - levels.trueReach[b]!);
  const [worst, best] = [order[0]!, order.at(-1)!];
  const rows = standardRows(truth.balls, 1500);
  const depths = allocateDepths();
  const starts = new Float64Array(18);
  const gathers = (k: number | null) => {
    // A truth in which the average shortstop is this man.
    const averageSkills = truth.averageSkills.slice();
    if (k !== null) {
      const who = levels.person[k]! * SKILL_STRIDE;
      averageSkills.set(truth.skills.subarray(who, who + SKILL_STRIDE), 6 * SKILL_STRIDE);
    }
    const random = createRandom(31);
    let count = 0;
    for (const row of rows) {
      expect(truth.balls.kind[row]).toBe(BALL_KINDS.indexOf('ground'));
      straightUp(truth.batsLeft[truth.balls.batter[row]!] === 1, depths);
      toStarts(depths, starts);
      for (let n = 0; n < 20; n += 1) {
        const replay = replayBall({ ...truth, averageSkills }, row, { starts, men: 'average', random: random.next });
        if (replay.gatheredBy === 6) count += 1;
      }
    }
    return count;
  };
  const usual = gathers(null);
  for (const k of [worst, best]) {
    const shown = (100 * (gathers(k) - usual)) / usual;
    // Two counts of some 7,000 gathers on the same numbers: a standard error of well under one per 100.
    expect(Math.abs(shown - levels.trueReach[k]!)).toBeLessThan(2.5);
  }
});
