import { RESULTS } from '../../diamond/play-codes.ts';
import { standStill } from './advance.ts';
import { ARM, SKILL_STRIDE } from './men.ts';
import type { PlayDraws } from './play-draws.ts';
import type { Pursuit } from './pursue-ball.ts';
import type { Outcome, Situation } from './situation.ts';
import { throwTimeS, toBagFt } from './travel.ts';

const OUT = RESULTS.indexOf('out');
const OUTFIELD_RELEASE_S = 1.1;
const TAG_LEG_SHARE = 0.87;
/** A runner caught off base on a ball lined at an infielder. */
const DOUBLED_OFF = 0.07;

/** A ball caught in the air: one out, runners tag up where the throw is long enough, a few are doubled off on liners. */
export function finishCatch(
  situation: Situation,
  pursuit: Pursuit,
  men: Float64Array,
  draws: PlayDraws,
  lined: boolean,
  out: Outcome,
): void {
  standStill(situation.bases, out.to);
  out.to[0] = 0;
  out.outsMade = 1;
  out.result = OUT;
  out.throwTo = 0;
  if (situation.outs === 2) return;
  if (pursuit.gatheredBy < 7) {
    if (lined && situation.bases !== 0 && draws.extra < DOUBLED_OFF) doubleOff(out);
    return;
  }
  const arm = men[(pursuit.gatheredBy - 1) * SKILL_STRIDE + ARM]!;
  let free = true;
  for (let from = 3; from >= 2; from -= 1) {
    if (out.to[from]! < 0) continue;
    const run = TAG_LEG_SHARE * situation.legsS[from]! + 0.25 + 0.2 * draws.dare;
    const away = toBagFt(from + 1, pursuit.xFt, pursuit.yFt);
    if (free && run < OUTFIELD_RELEASE_S + throwTimeS(away, arm) + (away > 250 ? 0.5 : 0)) {
      out.to[from] = from + 1;
      if (from === 3) out.throwTo = 4;
    } else {
      free = false;
    }
  }
}

function doubleOff(out: Outcome): void {
  for (let from = 1; from <= 3; from += 1) {
    if (out.to[from]! < 0) continue;
    out.to[from] = 0;
    out.outsMade = 2;
    out.throwTo = from;
    return;
  }
}
