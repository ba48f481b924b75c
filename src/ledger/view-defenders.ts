import type { BallGame } from '../chances/ball-game.ts';
import type { DefenderChances, SpotFacts } from '../chances/defender-chances.ts';
import { shiftByOdds } from '../numeric/logistic.ts';

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

/** Every man of a play of grade `full`, in chance order; `odds` is the set mark's shift. The game is left at his play. */
export function viewDefenders(
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
      setWithoutHim: shiftByOdds(game.valueWithout(k), odds),
    };
  });
}
