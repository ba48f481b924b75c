import { ON_FIRST, ON_SECOND } from '../../diamond/play-codes.ts';
import { everyState, HOME, move, type Way } from './advancement.ts';
import type { BaseRunning } from './base-running.ts';

const twoOuts = (state: number) => (state >> 3 === 2 ? 1 : 0);

/**
 * Ways of a single: the man on third scores; the man on second scores with share `secondOnSingle`, else stops at third; the man
 * on first goes to third with share `firstToThird` where nobody stopped there, else to second.
 */
export function singleWays(running: BaseRunning): readonly (readonly Way[])[] {
  return everyState((state) => {
    const scores = state & ON_SECOND ? running.secondOnSingle[twoOuts(state)] : 1;
    const goes = state & ON_FIRST ? running.firstToThird[twoOuts(state)] : 0;
    return [
      move(state, { batter: 1, runners: [3, HOME, HOME] }, scores * goes),
      move(state, { batter: 1, runners: [2, HOME, HOME] }, scores * (1 - goes)),
      move(state, { batter: 1, runners: [2, 3, HOME] }, 1 - scores),
    ].filter((way) => way.chance > 0);
  });
}

/** Ways of a double: men on second and third score, the man on first with share `firstOnDouble`, else he stops at third. */
export function doubleWays(running: BaseRunning): readonly (readonly Way[])[] {
  return everyState((state) => {
    const scores = state & ON_FIRST ? running.firstOnDouble[twoOuts(state)] : 1;
    return [
      move(state, { batter: 2, runners: [HOME, HOME, HOME] }, scores),
      move(state, { batter: 2, runners: [3, HOME, HOME] }, 1 - scores),
    ].filter((way) => way.chance > 0);
  });
}
