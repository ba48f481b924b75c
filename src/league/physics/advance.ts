import { ON_FIRST, ON_SECOND, ON_THIRD } from '../../diamond/play-codes.ts';
import type { PlayDraws } from './play-draws.ts';

/** Puts runners where they stood: -1 where nobody is. */
export function standStill(bases: number, to: Int8Array): void {
  to[0] = -1;
  to[1] = bases & ON_FIRST ? 1 : -1;
  to[2] = bases & ON_SECOND ? 2 : -1;
  to[3] = bases & ON_THIRD ? 3 : -1;
}

/** Moves the forced runners one base and leaves the others. */
export function advanceForced(bases: number, to: Int8Array): void {
  standStill(bases, to);
  if ((bases & ON_FIRST) === 0) return;
  to[1] = 2;
  if ((bases & ON_SECOND) === 0) return;
  to[2] = 3;
  if (bases & ON_THIRD) to[3] = 4;
}

/** Moves every runner `count` bases from where he stood, home at most. */
export function advanceAll(bases: number, to: Int8Array, count: number): void {
  const batter = to[0]!;
  standStill(bases, to);
  to[0] = batter;
  for (let from = 1; from <= 3; from += 1) if (to[from]! > 0) to[from] = Math.min(4, from + count);
}

/** A runner on third goes on contact on most grounders. */
export function scoreFromThird(draws: PlayDraws): number {
  return draws.extra < 0.8 ? 4 : 3;
}
