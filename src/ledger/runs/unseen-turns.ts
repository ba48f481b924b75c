import { RUNNERS } from './base-out.ts';
import { NONE, type PlaySequence } from './play-sequence.ts';

/** How turns at bat divide between balls that are in the book and those that are not; the four add up to one. */
export interface TurnShares {
  readonly inPlay: number;
  /** Outs that are not in the book, strikeouts for the most part. */
  readonly strikeout: number;
  /** Walks, men hit by a pitch, and whatever else puts a man on without a play in the book. */
  readonly walk: number;
  readonly homeRun: number;
  /** Plays after which somebody batted, and gaps of one turn between plays: what the shares are counted from. */
  readonly plays: number;
  readonly gaps: number;
}

/**
 * The turns at bat that a book of balls in play leaves out, from the gaps between its plays. The share of balls in play is how
 * often the next batter after a play puts one in, among plays after which there was a next batter. The rest is divided as
 * the gaps of exactly one turn are, after plays that left nobody or one out, so that no kind of turn could end the half
 * inning: one out more is a strikeout, everybody home a home run, anything else a walk.
 * The shares are the same for every base-out state: a first approximation, and only a small correction rests on it.
 */
export function unseenTurns(sequence: PlaySequence): TurnShares {
  const { count, outsAfter, runnersAfter, runsAfter, runsRest, before, next, second } = sequence;
  let plays = 0;
  let followed = 0;
  let [strikeouts, walks, homeRuns] = [0, 0, 0];
  for (let at = 0; at < count; at += 1) {
    if (outsAfter[at] >= 3) continue;
    plays += 1;
    if (next[at] !== NONE) {
      followed += 1;
      continue;
    }
    if (second[at] === NONE || outsAfter[at] === 2) continue;
    const state = before[second[at]];
    const runs = runsAfter[at] - runsRest[second[at]];
    if (state >> 3 > outsAfter[at]) strikeouts += 1;
    else if (RUNNERS[state & 7] === 0 && runs === runnersAfter[at] + 1) homeRuns += 1;
    else walks += 1;
  }
  const gaps = strikeouts + walks + homeRuns;
  const inPlay = plays === 0 || gaps === 0 ? 1 : followed / plays;
  const share = (n: number) => (gaps === 0 ? 0 : ((1 - inPlay) * n) / gaps);
  return { inPlay, strikeout: share(strikeouts), walk: share(walks), homeRun: share(homeRuns), plays, gaps };
}
