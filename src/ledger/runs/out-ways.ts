import { ON_FIRST, ON_SECOND, ON_THIRD } from '../../diamond/play-codes.ts';
import { everyState, HOME, type Moves, move, PUT_OUT, type Way } from './advancement.ts';
import type { BaseRunning } from './base-running.ts';

/** Of men on second who need not run and whose way is free: those who reach third on a grounder for an out. From memory. */
const SECOND_TO_THIRD = 0.5;

const STAY: Moves = { batter: PUT_OUT, runners: [1, 2, 3] };

/**
 * Ways of an out on the ground. With two outs it ends the half inning. With fewer and a man on first: the share `doubled` puts out
 * batter and man on first; of the rest, `leadManOut` puts out the man on first and leaves the batter there, else the
 * batter is out. Men who are forced go up a base. Without a man on first the batter is out. A man on third who need not
 * run scores with share `thirdOnOut`, on a double play always; one on second with third free for him goes there every
 * other time. The average second out is part of an out's value; a ledger of turns adds what was above or below it.
 */
export function groundOutWays(running: BaseRunning): readonly (readonly Way[])[] {
  return everyState((state) => {
    if (state >> 3 === 2) return [move(state, STAY)];
    const turn = turnWays(state, running);
    if (turn === null) return freeWays(state, STAY, 1, running);
    const single = turn.one.map((way) => ({ ...way, chance: way.chance * (1 - running.doubled) }));
    return [{ ...turn.two, chance: running.doubled }, ...single];
  });
}

/** With a man on first and fewer than two outs: the ways of one out on the ground, and the one way of two; else null. */
export function turnWays(state: number, running: BaseRunning): { one: readonly Way[]; two: Way } | null {
  if (state >> 3 === 2 || (state & ON_FIRST) === 0) return null;
  const leadOut: Moves = { batter: 1, runners: [PUT_OUT, 3, 3] };
  const batterOut: Moves = { batter: PUT_OUT, runners: [2, 3, 3] };
  const { leadManOut } = running;
  return {
    one: [...freeWays(state, leadOut, leadManOut, running), ...freeWays(state, batterOut, 1 - leadManOut, running)],
    two: move(state, { batter: PUT_OUT, runners: [PUT_OUT, 3, HOME] }),
  };
}

/** Ways of a ball caught in the air: with fewer than two outs a man on third scores with share `thirdOnOut`; nobody else moves. */
export function catchWays(running: BaseRunning): readonly (readonly Way[])[] {
  return everyState((state) => {
    if (state >> 3 === 2 || (state & ON_THIRD) === 0) return [move(state, STAY)];
    const { thirdOnOut } = running;
    return [move(state, { ...STAY, runners: [1, 2, HOME] }, thirdOnOut), move(state, STAY, 1 - thirdOnOut)];
  });
}

/** Spreads `moves` over what the man on third does, and then a man on second who need not run. */
function freeWays(state: number, moves: Moves, chance: number, running: BaseRunning): Way[] {
  const bases = state & 7;
  const hasThird = (bases & ON_THIRD) !== 0;
  const forcedHome = bases === (ON_FIRST | ON_SECOND | ON_THIRD);
  const scores = hasThird ? (forcedHome ? 1 : running.thirdOnOut) : 0;
  const free = (bases & ON_FIRST) === 0 && (bases & ON_SECOND) !== 0;
  const ways: Way[] = [];
  for (const [third, share] of [[HOME, scores] as const, [3, 1 - scores] as const]) {
    const goes = !free ? 1 : hasThird && third === 3 ? 0 : SECOND_TO_THIRD;
    const second = free ? 3 : moves.runners[1];
    const [first] = moves.runners;
    if (share * goes > 0) ways.push(move(state, { ...moves, runners: [first, second, third] }, chance * share * goes));
    if (share * (1 - goes) > 0)
      ways.push(move(state, { ...moves, runners: [first, 2, third] }, chance * share * (1 - goes)));
  }
  return ways;
}
