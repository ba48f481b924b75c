import { expect, test } from 'vitest';
import { BALL_KINDS, BASES, RESULTS } from '../../../src/diamond/play-codes.ts';
import { finishGrounder } from '../../../src/league/physics/finish-grounder.ts';
import { ARM, RELEASE, SKILL_STRIDE } from '../../../src/league/physics/men.ts';
import { allocatePlayDraws, drawPlay } from '../../../src/league/physics/play-draws.ts';
import { allocateOutcome, allocateSituation } from '../../../src/league/physics/situation.ts';
import { allocateDepths, straightUp, toStarts } from '../../../src/league/scenario/usual-starts.ts';
import { createRandom } from '../../../src/numeric/random.ts';

const men = () => Float64Array.from(Array.from({ length: 9 }, () => [0.26, 26.5, 0, 0, 80, 0.85, 0]).flat());
const starts = new Float64Array(18);
const depths = allocateDepths();
straightUp(false, depths);
toStarts(depths, starts);
const situation = allocateSituation();
const outcome = allocateOutcome();
const draws = allocatePlayDraws();

interface Case {
  by: number;
  timeS: number;
  x: number;
  y: number;
  outs?: number;
  bases?: number;
  batterS?: number;
}

/** Plays a gather many times on the same numbers; answers the mean outs and the throws by base. */
function finish({ by, timeS, x, y, outs = 0, bases = 0, batterS = 4.35 }: Case, team = men(), tries = 600) {
  situation.outs = outs;
  situation.bases = bases;
  situation.kind = BALL_KINDS.indexOf('ground');
  situation.legsS.fill(4.35);
  situation.legsS[0] = batterS;
  const random = createRandom(3);
  const pursuit = { touchedBy: by, gatheredBy: by, timeS, xFt: x, yFt: y, needFt: 0, caught: false };
  const throws: Record<string, number> = {};
  let [any, two] = [0, 0];
  for (let k = 0; k < tries; k += 1) {
    drawPlay(random.next, draws);
    finishGrounder(situation, pursuit, starts, team, draws, false, outcome);
    throws[BASES[outcome.throwTo]!] = (throws[BASES[outcome.throwTo]!] ?? 0) + 1;
    if (outcome.outsMade > 0) any += 1;
    if (outcome.outsMade === 2) two += 1;
  }
  return { any: any / tries, two: two / tries, throws, last: RESULTS[outcome.result]! };
}

test('a routine ball at shortstop is an out at first, a late one is not', () => {
  const routine = finish({ by: 6, timeS: 1.6, x: -38, y: 138 });
  expect(routine.any).toBeGreaterThan(0.95);
  expect(routine.throws['1B']).toBe(600);
  expect(finish({ by: 6, timeS: 3.2, x: -45, y: 150 }).any).toBeLessThan(0.05);
});

test('a faster batter, a weaker arm and a slower release cost outs on a close play', () => {
  const close = { by: 6, timeS: 2.15, x: -45, y: 140 };
  const usual = finish(close).any;
  const slowHands = men();
  slowHands[5 * SKILL_STRIDE + RELEASE]! += 0.12;
  const weakArm = men();
  weakArm[5 * SKILL_STRIDE + ARM]! -= 10;
  expect(usual).toBeGreaterThan(0.2);
  expect(finish({ ...close, batterS: 4.1 }).any).toBeLessThan(usual);
  expect(finish(close, slowHands).any).toBeLessThan(usual);
  expect(finish(close, weakArm).any).toBeLessThan(usual);
});

test('first basemen near the bag go there themselves: no throw is recorded', () => {
  const own = finish({ by: 3, timeS: 1.3, x: 66, y: 80 });
  expect(own.throws['']).toBe(600);
  expect(own.any).toBeGreaterThan(0.95);
});

test('with a man on first and fewer than two outs they go for two, with two outs for the sure one', () => {
  const ball = { by: 6, timeS: 1.35, x: -30, y: 135, bases: 1 };
  const early = finish(ball);
  expect(early.throws['2B']).toBe(600);
  expect(early.two).toBeGreaterThan(0.3);
  expect(finish({ ...ball, outs: 2 }).two).toBe(0);
  expect(finish({ ...ball, bases: 2 }).two).toBe(0);
});
