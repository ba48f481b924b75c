import { BASE_SPOTS } from '../../diamond/field.ts';
import { RESULTS } from '../../diamond/play-codes.ts';
import { standStill } from './advance.ts';
import { ARM, SKILL_STRIDE } from './men.ts';
import type { PlayDraws } from './play-draws.ts';
import type { Pursuit } from './pursue-ball.ts';
import type { Outcome, Situation } from './situation.ts';
import { throwTimeS } from './travel.ts';

const SINGLE = RESULTS.indexOf('single');
const OUTFIELD_RELEASE_S = 1.15;
/** Longer throws go through a relay man. */
const RELAY_FT = 210;
const RELAY_S = 0.9;
/** Shares of his home-to-first time in which a man runs two, three and four bases from the bat. */
const BASES_FROM_BAT: readonly number[] = [0, 1, 1.87, 2.72, 3.6];
/** The same from a base with a lead. */
const BASES_FROM_LEAD: readonly number[] = [0, 0.83, 1.65, 2.5];

/** Bases on a ball that fell or went through: everybody runs as far as the outfielder's throw lets him. */
export function takeBases(
  situation: Situation,
  pursuit: Pursuit,
  men: Float64Array,
  draws: PlayDraws,
  out: Outcome,
): void {
  const at = (pursuit.gatheredBy - 1) * SKILL_STRIDE;
  const arm = men[at + ARM]!;
  const ballAt = (base: number) => {
    const spot = BASE_SPOTS[base]!;
    const away = Math.hypot(spot.x - pursuit.xFt, spot.y - pursuit.yFt);
    return pursuit.timeS + OUTFIELD_RELEASE_S + throwTimeS(away, arm) + (away > RELAY_FT ? RELAY_S : 0);
  };
  const caution = 0.25 + 0.25 * draws.dare;
  const leg = situation.legsS[0]!;
  let batter = 1;
  while (batter < 3 && leg * BASES_FROM_BAT[batter + 1]! + caution < ballAt(batter + 1)) batter += 1;
  standStill(situation.bases, out.to);
  const start = situation.outs === 2 ? 0.25 : 0;
  let ahead = 5;
  for (let from = 3; from >= 1; from -= 1) {
    if (out.to[from]! < 0) continue;
    const run = situation.legsS[from]!;
    let base = from + 1;
    while (base < 4 && run * BASES_FROM_LEAD[base + 1 - from]! - start + caution < ballAt(base + 1)) base += 1;
    base = Math.min(base, ahead - 1, 4);
    out.to[from] = base;
    if (base < 4) ahead = base;
  }
  batter = Math.min(batter, ahead - 1);
  // A batter's extra base pushes the men before him along.
  let behind = batter;
  for (let from = 1; from <= 3; from += 1) {
    if (out.to[from]! < 0) continue;
    if (out.to[from]! <= behind) out.to[from] = Math.min(4, behind + 1);
    if (out.to[from]! < 4) behind = out.to[from]!;
  }
  out.to[0] = batter;
  out.result = SINGLE + batter - 1;
  out.outsMade = 0;
  out.throwTo = 2;
  for (let from = 2; from <= 3; from += 1)
    if (situation.bases & (1 << (from - 1)) && out.to[from] === 3) out.throwTo = 4;
}
