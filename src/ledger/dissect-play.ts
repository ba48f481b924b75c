import { BallGame } from '../chances/ball-game.ts';
import type { ClassPlays } from '../chances/class-plays.ts';
import type { DefenderChances } from '../chances/defender-chances.ts';
import type { EvenDraws } from '../chances/even-draws.ts';
import { FULL } from '../chances/grades.ts';
import { shiftByOdds } from '../numeric/logistic.ts';
import type { Shifts } from './balance.ts';
import { type DefenderView, viewDefenders } from './view-defenders.ts';

/** What the numbers of one play came from. */
export interface PlayView {
  /** Numbers of the plays whose placements the opening mark averaged over. */
  readonly lenders: readonly number[];
  /** Lowest and highest of the opening mark's draws. */
  readonly openingLow: number;
  readonly openingHigh: number;
  /** In chance order; empty when the play has no set mark. */
  readonly defenders: readonly DefenderView[];
}

/** Takes one play apart (method.md 4 to 6) with the chances, draws and shifts of the build that scored it. */
export function dissectPlay(
  plays: ClassPlays,
  chances: DefenderChances,
  movable: readonly number[],
  draws: EvenDraws,
  shifts: Shifts,
  at: number,
): PlayView {
  const own = draws.source.subarray(at * draws.draws, (at + 1) * draws.draws);
  const lenders = Array.from(own).filter((lender) => lender >= 0);
  const game = new BallGame(plays, chances, draws, movable);
  const opening = new Float64Array(draws.draws);
  if (lenders.length > 0) game.playOpening(at, opening, 0, new Float64Array(plays.men), 0);
  const shifted = opening.map((value) => shiftByOdds(value, Math.exp(shifts.opening)));
  return {
    lenders,
    openingLow: lenders.length > 0 ? Math.min(...shifted) : Number.NaN,
    openingHigh: lenders.length > 0 ? Math.max(...shifted) : Number.NaN,
    defenders: plays.grade[at] === FULL ? viewDefenders(game, chances, lenders, Math.exp(shifts.set), at) : [],
  };
}
