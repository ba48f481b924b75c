import { expect, test } from 'vitest';
import { allocateBallPath } from '../../../src/league/physics/ball-path.ts';
import { handleGrounder } from '../../../src/league/physics/handle-ball.ts';
import { meetBall } from '../../../src/league/physics/meet-ball.ts';
import { FIRST_STEP, GLOVE, SKILL_STRIDE, TOP_SPEED } from '../../../src/league/physics/men.ts';
import { allocatePlayDraws, drawPlay } from '../../../src/league/physics/play-draws.ts';
import { allocatePursuit, pursueBall } from '../../../src/league/physics/pursue-ball.ts';
import { traceBall } from '../../../src/league/physics/trace-ball.ts';
import { allocateDepths, straightUp, toStarts } from '../../../src/league/scenario/usual-starts.ts';
import { createRandom } from '../../../src/numeric/random.ts';

const USUAL_MAN = [0.26, 26.5, 0, 0, 80, 0.85, 0];
const FAR_FT = 5000;
const random = createRandom(11);
const path = allocateBallPath();
const pursuit = allocatePursuit();
const draws = allocatePlayDraws();

const nine = () => Float64Array.from(Array.from({ length: 9 }, () => USUAL_MAN).flat());
const usualStarts = () => {
  const starts = new Float64Array(18);
  const depths = allocateDepths();
  straightUp(false, depths);
  toStarts(depths, starts);
  return starts;
};
/** Only the shortstop is on the field. */
const aloneAt = (x: number, y: number) => {
  const starts = new Float64Array(18).fill(-FAR_FT);
  starts[10] = x;
  starts[11] = y;
  return starts;
};
const grounder = (bearingDeg: number, exitSpeedMph: number) =>
  traceBall({ exitSpeedMph, launchAngleDeg: -6, bearingDeg, surface: 1, kickDeg: 0, hop: 1 }, path);
const gatherShare = (starts: Float64Array, men = nine(), tries = 400) => {
  let gathers = 0;
  for (let k = 0; k < tries; k += 1) {
    drawPlay(random.next, draws);
    pursueBall(path, starts, men, draws, false, 1, pursuit);
    if (pursuit.gatheredBy === 6 && pursuit.timeS < 4) gathers += 1;
  }
  return gathers / tries;
};

test('a man on the line of the ball gathers nearly always, a man far from it never', () => {
  grounder(-12, 82);
  const angle = (-12 * Math.PI) / 180;
  expect(gatherShare(aloneAt(140 * Math.sin(angle), 140 * Math.cos(angle)))).toBeGreaterThan(0.93);
  expect(gatherShare(aloneAt(140 * Math.sin(angle + 0.5), 140 * Math.cos(angle + 0.5)))).toBe(0);
});

test('with nobody near, nobody touches the ball and it is left where it lies', () => {
  grounder(-12, 82);
  drawPlay(random.next, draws);
  pursueBall(path, new Float64Array(18).fill(-FAR_FT), nine(), draws, false, 1, pursuit);
  expect(pursuit.touchedBy).toBe(0);
  expect(pursuit.gatheredBy).toBeGreaterThanOrEqual(7);
  expect(pursuit.timeS).toBeGreaterThan(5);
});

test('on the same numbers a man who is quicker, faster or longer needs no more arm', () => {
  const meeting = { step: -1, needFt: 0, cost: 0 };
  const ask = (delay: number, speed: number, arm: number) => {
    meetBall(path, -35, 142, delay, speed, arm, 4.5, false, meeting);
    return { got: meeting.step >= 0, cost: meeting.cost };
  };
  for (let bearing = -30; bearing <= 6; bearing += 0.5) {
    grounder(bearing, 78);
    const base = ask(0.26, 26, 3);
    for (const better of [ask(0.2, 26, 3), ask(0.26, 29, 3), ask(0.26, 26, 3.6)]) {
      expect(better.got || !base.got).toBe(true);
      expect(better.cost).toBeLessThanOrEqual(base.cost);
    }
  }
});

test('over many balls on the same draws, better skills touch no fewer balls and gather more', () => {
  const count = (change: (men: Float64Array) => void) => {
    const men = nine();
    change(men);
    const own = createRandom(5);
    let [touched, gathered] = [0, 0];
    for (let k = 0; k < 4000; k += 1) {
      grounder(-27 + 26 * own.next(), 70 + 30 * own.next());
      drawPlay(own.next, draws);
      pursueBall(path, aloneAt(-38, 140), men, draws, false, 1, pursuit);
      if (pursuit.touchedBy === 6) touched += 1;
      if (pursuit.gatheredBy === 6) gathered += 1;
    }
    return { touched, gathered };
  };
  const at = 5 * SKILL_STRIDE;
  const usual = count(() => undefined);
  for (const better of [
    count((men) => {
      men[at + FIRST_STEP]! -= 0.06;
    }),
    count((men) => {
      men[at + TOP_SPEED]! += 2;
    }),
    count((men) => {
      men[at + GLOVE]! += 0.6;
    }),
  ]) {
    expect(better.touched).toBeGreaterThanOrEqual(usual.touched);
    expect(better.gathered).toBeGreaterThan(usual.gathered);
  }
});

test('the four ways to handle a ball add up to 1, and stretch, heat and poor hands make it worse', () => {
  const out = { missed: 0, booted: 0, bobbled: 0, clean: 0 };
  const clean = (need: number, speed: number, hands: number) => {
    handleGrounder(need, speed, hands, out);
    expect(out.missed + out.booted + out.bobbled + out.clean).toBeCloseTo(1, 12);
    return out.clean;
  };
  expect(clean(0, 80, 0)).toBeGreaterThan(clean(2, 80, 0));
  expect(clean(0, 80, 0)).toBeGreaterThan(clean(0, 130, 0));
  expect(clean(0, 80, 0.5)).toBeGreaterThan(clean(0, 80, -0.5));
});

test('the outfield picks up what goes through the hole', () => {
  grounder(-23.5, 104);
  let through = 0;
  for (let k = 0; k < 200; k += 1) {
    drawPlay(random.next, draws);
    pursueBall(path, usualStarts(), nine(), draws, false, 1, pursuit);
    if (pursuit.gatheredBy === 7) through += 1;
  }
  expect(through).toBeGreaterThan(100);
});
