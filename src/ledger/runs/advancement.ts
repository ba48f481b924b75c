import { BASE_OUT_STATES, INNING_OVER } from './base-out.ts';

/** What a turn at bat comes to, as far as runs go. */
export const TURNS = ['out', 'walk', 'single', 'double', 'triple', 'home_run'] as const;
export type Turn = (typeof TURNS)[number];

/** One way for an event to go in a state: how likely, how many runs score, and the state it leaves (24: the inning is over). */
export interface Way {
  readonly chance: number;
  readonly runs: number;
  readonly to: number;
}

/** The ways of each event by base-out state, outs * 8 + bases. The chances of a state add up to one. */
export type Advancement = Readonly<Record<Turn, readonly (readonly Way[])[]>>;

export const HOME = 4;
/** In place of a base: the man is out. */
export const PUT_OUT = 0;

/** Where batter and runners end, by the base they came from: 1 to 3, HOME, or PUT_OUT. */
export interface Moves {
  readonly batter: number;
  /** Runners from first, second and third. */
  readonly runners: readonly [number, number, number];
}

/**
 * The simple rules of D'Esopo and Lefkowitz (as in Cover & Keilers, Operations Research 25(5), 1977): an out moves nobody, a
 * single scores the men on second and third and moves the man on first to second, a double moves the man on first to
 * third. A walk moves those who are forced and needs no rule.
 */
const SIMPLE_MOVES: Readonly<Record<Exclude<Turn, 'walk'>, Moves>> = {
  out: { batter: PUT_OUT, runners: [1, 2, 3] },
  single: { batter: 1, runners: [2, HOME, HOME] },
  double: { batter: 2, runners: [3, HOME, HOME] },
  triple: { batter: 3, runners: [HOME, HOME, HOME] },
  home_run: { batter: HOME, runners: [HOME, HOME, HOME] },
};

/** SIMPLE_MOVES and walks as ways. */
export const SIMPLE_ADVANCEMENT: Advancement = {
  out: everyState((state) => [move(state, SIMPLE_MOVES.out)]),
  walk: everyState((state) => [move(state, walkMoves(state & 7))]),
  single: everyState((state) => [move(state, SIMPLE_MOVES.single)]),
  double: everyState((state) => [move(state, SIMPLE_MOVES.double)]),
  triple: everyState((state) => [move(state, SIMPLE_MOVES.triple)]),
  home_run: everyState((state) => [move(state, SIMPLE_MOVES.home_run)]),
};

export function everyState<T>(of: (state: number) => T): T[] {
  return Array.from({ length: BASE_OUT_STATES }, (_, state) => of(state));
}

/** Each forced runner goes up one base. */
export function walkMoves(bases: number): Moves {
  const full = (mask: number) => (bases & mask) === mask;
  return { batter: 1, runners: [2, full(1) ? 3 : 2, full(3) ? HOME : 3] };
}

/**
 * A way with these moves. No run counts on a play that ends the half inning. Throws RangeError when two men would share
 * a base.
 */
export function move(state: number, moves: Moves, chance = 1): Way {
  let outs = state >> 3;
  let runs = 0;
  let bases = 0;
  const men = [moves.batter, ...moves.runners.filter((_, base) => (state & (1 << base)) !== 0)];
  for (const to of men) {
    if (to === PUT_OUT) outs += 1;
    else if (to === HOME) runs += 1;
    else if (bases & (1 << (to - 1))) throw new RangeError(`two men on base ${to} after a play in state ${state}`);
    else bases |= 1 << (to - 1);
  }
  return outs >= 3 ? { chance, runs: 0, to: INNING_OVER } : { chance, runs, to: outs * 8 + bases };
}
