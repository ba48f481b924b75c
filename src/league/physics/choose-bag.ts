import { ON_FIRST, ON_SECOND, ON_THIRD } from '../../diamond/play-codes.ts';
import type { BagTimes } from './infield-play.ts';
import type { Situation } from './situation.ts';

/** No throw: everybody would be safe. */
export const HOLD = 0;

const GIVE_UP_S = -0.4;
const SURE_FORCE_S = 0.1;
const DOUBLE_HOPE_S = -0.35;
const HOME_HOPE_S = 0.2;
const STEP_ON_BAG_FT = 3;

/** True when the man who comes to `bag` is forced there. */
export function forcedTo(bag: number, bases: number): boolean {
  if (bag === 1) return true;
  if ((bases & ON_FIRST) === 0) return false;
  if (bag === 2) return true;
  return (bases & ON_SECOND) !== 0 && (bag === 3 || (bases & ON_THIRD) !== 0);
}

/**
 * Which bag the gatherer goes for, by what he expects: `arriveS` are the runners' usual times to each bag, `pivotS` the
 * usual time of the turn at second.
 */
export function chooseBag(
  situation: Situation,
  times: BagTimes,
  arriveS: Float64Array,
  pivotS: number,
  infieldIn: boolean,
  bunt: boolean,
): number {
  const margin = (bag: number) =>
    forcedTo(bag, situation.bases) ? arriveS[bag]! - times.readyS[bag]! : Number.NEGATIVE_INFINITY;
  const atFirst = margin(1);
  if (situation.outs === 2) {
    let best = 1;
    for (let bag = 2; bag <= 3; bag += 1) if (margin(bag) > margin(best) + 0.1) best = bag;
    return margin(best) > GIVE_UP_S ? best : HOLD;
  }
  if (infieldIn && margin(4) > HOME_HOPE_S) return 4;
  const atSecond = margin(2);
  if (atSecond > (bunt ? 0.4 : SURE_FORCE_S)) {
    const double = arriveS[1]! - times.readyS[2]! - pivotS;
    if (margin(3) > 0.4 && times.carried[3] === 1 && times.throwFt[3]! < STEP_ON_BAG_FT && double < 0) return 3;
    if (double > DOUBLE_HOPE_S || atSecond > 0.3 || atFirst < 0) return 2;
  }
  if (atFirst > GIVE_UP_S) return 1;
  for (let bag = 2; bag <= 3; bag += 1) if (margin(bag) > 0) return bag;
  return HOLD;
}
