import { BallGame } from '../chances/ball-game.ts';
import type { ClassPlays } from '../chances/class-plays.ts';
import type { DefenderChances, SpotFacts } from '../chances/defender-chances.ts';
import type { EvenDraws } from '../chances/even-draws.ts';
import { FULL } from '../chances/grades.ts';
import { shiftByOdds } from '../numeric/logistic.ts';
import type { Shifts } from './balance.ts';

/** One defender's part in a play, as the marks see it. */
export interface DefenderView extends SpotFacts {
  readonly position: number;
  readonly startXFt: number;
  readonly startYFt: number;
  /** Mean of the starts that the opening mark averaged over; NaN for pitcher and catcher, who do not move. */
  readonly evenXFt: number;
  readonly evenYFt: number;
  /** Chance that he gathers it if nobody before him does, and of an out if he does; balanced only as a whole. */
  readonly reach: number;
  readonly promise: number;
  /** Set mark of the team had he not been there at all. */
  readonly setWithoutHim: number;
}

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

function viewDefenders(
  game: BallGame,
  chances: DefenderChances,
  lenders: readonly number[],
  odds: number,
  at: number,
): DefenderView[] {
  const { starts, men } = game.plays;
  const startOf = (play: number, k: number, axis: number) => starts[(play * men + k) * 2 + axis];
  game.setActual(at);
  const order = Array.from(game.chanceOrder);
  return order.map((k) => {
    chances.standAt(k, startOf(at, k, 0), startOf(at, k, 1));
    const evenOf = (axis: number) =>
      game.movable.includes(k)
        ? lenders.reduce((sum, lender) => sum + startOf(lender, k, axis), 0) / lenders.length
        : Number.NaN;
    return {
      position: k + 1,
      startXFt: startOf(at, k, 0),
      startYFt: startOf(at, k, 1),
      evenXFt: evenOf(0),
      evenYFt: evenOf(1),
      ...chances.describe(),
      reach: game.reach[k],
      promise: game.promise[k],
      setWithoutHim: shiftByOdds(setWithout(game, order, k), odds),
    };
  });
}

function setWithout(game: BallGame, order: readonly number[], absent: number): number {
  let value = 0;
  for (let k = order.length - 1; k >= 0; k -= 1) {
    const i = order[k];
    if (i !== absent) value = game.reach[i] * game.promise[i] + (1 - game.reach[i]) * value;
  }
  return value;
}
