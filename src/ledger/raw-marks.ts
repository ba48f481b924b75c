import type { BallGame } from '../chances/ball-game.ts';
import type { ClassPlays } from '../chances/class-plays.ts';
import type { EvenDraws } from '../chances/even-draws.ts';
import { FULL, GROUND, WHOLE } from '../chances/grades.ts';
import type { Progress } from '../progress.ts';
import { NearbyOutShares } from './nearby-out-shares.ts';

/** Marks as the models give them, before balancing. Columns have the length of the plays unless said otherwise. */
export interface RawMarks {
  readonly draws: number;
  /** count * draws */
  readonly openingByDraw: Float64Array;
  /** NaN below grade `full`. */
  readonly set: Float64Array;
  /** NaN for grade `whole`; 0 when nobody gathered. */
  readonly gathered: Float64Array;
  /** count * men: everybody's average chance to make the out, by which undivided entries are shared. */
  readonly share: Float64Array;
  /** Grade of each play; lower than the play's own when there was nothing to compare its placement with. */
  readonly grade: Uint8Array;
}

/** What the models say of a class of plays, apart from placements. Columns have the length of the plays. */
export interface ClassForecast {
  /** Chance of an out by what is known before anybody moves. */
  readonly direct: Float64Array;
  /** Chance of an out with the ball in hand; 0 when nobody gathered. */
  readonly finish: Float64Array;
}

/**
 * The least that a draw's mark may be, by the raw set mark of the play (NaN below grade `full`). A mark of exactly 0 stays there whatever
 * the shift, so that a group in which everybody was out could not balance. Where the men who were there had no chance a draw may have none.
 */
export function leastDraw(set: number): number {
  return set < LEAST_MARK ? 0 : LEAST_MARK;
}

const LEAST_MARK = 1e-6;

/** Computes raw marks of all plays of a class. The direct forecast serves where a book has no placements to draw from. */
export function computeRawMarks(
  plays: ClassPlays,
  game: BallGame,
  draws: EvenDraws,
  forecast: ClassForecast,
  progress: Progress,
): RawMarks {
  const { count, men } = plays;
  const raw = {
    draws: draws.draws,
    openingByDraw: new Float64Array(count * draws.draws),
    set: new Float64Array(count).fill(Number.NaN),
    gathered: new Float64Array(count).fill(Number.NaN),
    share: new Float64Array(count * men),
    grade: Uint8Array.from(plays.grade),
  };
  const nearby = new NearbyOutShares(plays);
  progress.stage('marks', count);
  for (let at = 0; at < count; at += 1) {
    const from = at * draws.draws;
    if (draws.source[from] >= 0) {
      game.playOpening(at, raw.openingByDraw, from, raw.share, at * men);
    } else {
      raw.openingByDraw.fill(forecast.direct[at], from, from + draws.draws);
      nearby.sharesInto(plays.bearingDeg[at], raw.share, at * men);
      if (raw.grade[at] === FULL) raw.grade[at] = GROUND;
    }
    if (raw.grade[at] === FULL) {
      game.setActual(at);
      raw.set[at] = game.value[0];
    }
    const least = leastDraw(raw.set[at]);
    for (let k = from; k < from + draws.draws; k += 1) raw.openingByDraw[k] = Math.max(raw.openingByDraw[k], least);
    if (raw.grade[at] !== WHOLE) raw.gathered[at] = forecast.finish[at];
    if ((at & 1023) === 0) progress.advance(at);
  }
  progress.finish();
  return raw;
}
