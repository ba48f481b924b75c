import { ON_FIRST, ON_SECOND, ON_THIRD, RESULTS } from '../../diamond/play-codes.ts';
import { advanceAll, advanceForced, scoreFromThird } from './advance.ts';
import { chooseBag, forcedTo, HOLD } from './choose-bag.ts';
import { allocateBagTimes, bagTimes, nextBaseS, pivotS } from './infield-play.ts';
import type { PlayDraws } from './play-draws.ts';
import type { Pursuit } from './pursue-ball.ts';
import type { Outcome, Situation } from './situation.ts';

const [OUT, SINGLE] = [RESULTS.indexOf('out'), RESULTS.indexOf('single')];
const [ERROR, CHOICE] = [RESULTS.indexOf('error'), RESULTS.indexOf('fielders_choice')];
/** With the shortstop and second baseman nearer than this on average the infield is in. */
const INFIELD_IN_FT = 125;
const NO_DRAWS = { batterRun: 0, runnerRun: 0 } as PlayDraws;

const times = allocateBagTimes();
const expected = new Float64Array(5);

const sigma = (logit: number) => 1 / (1 + Math.exp(-logit));

/** Chance that a throw goes astray, by distance and the stretch before it. */
function wildChance(throwFt: number, needFt: number): number {
  return throwFt === 0 ? 0.001 : sigma(-5.6 + throwFt / 100 + 0.25 * Math.max(0, needFt));
}

export function infieldIn(starts: Float64Array): boolean {
  return Math.hypot(starts[6]!, starts[7]!) + Math.hypot(starts[10]!, starts[11]!) < 2 * INFIELD_IN_FT;
}

/** What an infielder makes of a ball that he gathered on the ground: the bag, the throw, a turn, an error. */
export function finishGrounder(
  situation: Situation,
  pursuit: Pursuit,
  starts: Float64Array,
  men: Float64Array,
  draws: PlayDraws,
  bunt: boolean,
  out: Outcome,
): void {
  bagTimes(pursuit, starts, men, draws, times);
  expected[1] = nextBaseS(situation, 0, NO_DRAWS);
  for (let from = 1; from <= 3; from += 1) expected[from + 1] = nextBaseS(situation, from, NO_DRAWS);
  const turn = pivotS(times.taker[2]!, men);
  const near = infieldIn(starts);
  const bag = chooseBag(situation, times, expected, turn, near, bunt);
  out.throwTo = bag === HOLD || times.carried[bag] === 1 ? 0 : bag;
  advanceForced(situation.bases, out.to);
  out.to[0] = 1;
  out.outsMade = 0;
  if (bag === HOLD) {
    out.result = SINGLE;
    return;
  }
  const margin = nextBaseS(situation, bag - 1, draws) - times.readyS[bag]!;
  if (draws.wild < wildChance(times.throwFt[bag]!, pursuit.needFt)) {
    out.result = margin > 0 ? ERROR : SINGLE;
    out.to[0] = draws.extra < 0.5 ? 2 : 1;
    advanceAll(situation.bases, out.to, out.to[0]);
    return;
  }
  const late = margin <= 0;
  if (bag === 1) {
    out.result = late ? SINGLE : OUT;
  } else {
    out.result = CHOICE;
  }
  if (!late) {
    out.outsMade = 1;
    out.to[bag - 1] = 0;
  }
  if (bag === 2 && !late && situation.outs < 2) tryDouble(situation, turn, draws, out);
  if (situation.outs + out.outsMade >= 3) return;
  moveOthers(situation, pursuit, near, draws, out);
}

/** The turn at second: the pivot's throw against the batter's run. */
function tryDouble(situation: Situation, turn: number, draws: PlayDraws, out: Outcome): void {
  const there = times.readyS[2]! + turn + 0.07 * draws.dare;
  if (nextBaseS(situation, 0, draws) <= there || draws.secondWild < 0.025) return;
  out.outsMade = 2;
  out.result = OUT;
  out.to[0] = 0;
}

/** Runners who are not forced take the next base when the throw goes elsewhere. */
function moveOthers(situation: Situation, pursuit: Pursuit, near: boolean, draws: PlayDraws, out: Outcome): void {
  const { bases } = situation;
  if (out.result === SINGLE && out.outsMade === 0 && out.throwTo === 0) return;
  if ((bases & ON_THIRD) !== 0 && !forcedTo(4, bases) && !near) out.to[3] = scoreFromThird(draws);
  const thirdFree = (bases & ON_THIRD) === 0 || out.to[3] === 4;
  if ((bases & ON_SECOND) !== 0 && (bases & ON_FIRST) === 0 && thirdFree && (pursuit.xFt > -15 || draws.extra < 0.3))
    out.to[2] = 3;
}
