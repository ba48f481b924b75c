import { allocatePlayTable, type PlayTable } from '../../../src/chances/play-table.ts';
import { ON_FIRST, RESULTS } from '../../../src/diamond/play-codes.ts';
import type { Advancement, Turn, Way } from '../../../src/ledger/runs/advancement.ts';
import { INNING_OVER, RUNNERS } from '../../../src/ledger/runs/base-out.ts';
import type { TurnRates } from '../../../src/ledger/runs/half-inning-chain.ts';
import { createRandom, type Random } from '../../../src/numeric/random.ts';

/** Chances of a turn at bat: what ends as a ball in play, and strikeouts beside the outs in play. */
export type FullRates = TurnRates & { readonly strikeout: number };

const BALLS: readonly Turn[] = ['out', 'single', 'double', 'triple'];
/** Half innings of one game's visitors; plays of later innings than the eighth are never made. */
const INNINGS = 8;

interface Play {
  readonly half: number;
  readonly state: number;
  readonly turn: Turn;
  readonly way: Way;
  readonly before: number;
  after: number;
}

/**
 * Half innings drawn from a Markov chain whose expected runs are known, with only the balls in play written down, as in a
 * book. Every ball is a grounder.
 */
export function chainPlays(halves: number, rates: FullRates, advancement: Advancement, seed: number): PlayTable {
  const random = createRandom(seed);
  const plays: Play[] = [];
  for (let half = 0; half < halves; half += 1) playHalf(half, rates, advancement, random, plays);
  return tableOf(plays, Math.ceil(halves / INNINGS));
}

function playHalf(half: number, rates: FullRates, advancement: Advancement, random: Random, plays: Play[]): void {
  const first = plays.length;
  let state = 0;
  let runs = 0;
  while (state !== INNING_OVER) {
    const event = draw(Object.entries(rates) as [keyof FullRates, number][], ([, rate]) => rate, random)[0];
    if (event === 'strikeout') {
      state = state >> 3 === 2 ? INNING_OVER : state + 8;
      continue;
    }
    const way = draw(advancement[event][state], ({ chance }) => chance, random);
    if (BALLS.includes(event)) plays.push({ half, state, turn: event, way, before: runs, after: 0 });
    runs += way.runs;
    state = way.to;
  }
  for (let k = first; k < plays.length; k += 1) plays[k].after = runs - plays[k].before;
}

function draw<T>(items: readonly T[], chance: (item: T) => number, random: Random): T {
  let left = random.next();
  for (const item of items) {
    left -= chance(item);
    if (left < 0) return item;
  }
  return items[items.length - 1];
}

function tableOf(plays: readonly Play[], games: number): PlayTable {
  const table = allocatePlayTable(plays.length);
  table.games = Array.from({ length: games }, (_, k) => `game-${k}`);
  table.parks = ['park'];
  table.teams = ['visitors', 'hosts'];
  plays.forEach(({ half, state, turn, way, after }, row) => {
    table.game[row] = Math.floor(half / INNINGS);
    table.inning[row] = 1 + (half % INNINGS);
    table.season[row] = 2031;
    table.battingTeam[row] = 0;
    table.fieldingTeam[row] = 1;
    table.park[row] = 0;
    table.outsBefore[row] = state >> 3;
    table.bases[row] = state & 7;
    table.outsMade[row] = outsOf(turn, way, state);
    table.result[row] = resultOf(turn, way, state);
    table.runsScored[row] = way.runs;
    table.runsRestOfInning[row] = after;
  });
  return table;
}

/** Men are out, home or on base; a play that ends the inning ends it with the third out. */
function outsOf(turn: Turn, way: Way, state: number): number {
  if (way.to === INNING_OVER) return 3 - (state >> 3);
  return turn === 'out' ? RUNNERS[state & 7] + 1 - way.runs - RUNNERS[way.to & 7] : 0;
}

/** On a grounder for one out a man on first goes up or is out: whoever stands on first afterwards is the batter. */
function resultOf(turn: Turn, way: Way, state: number): number {
  const batterSafe = turn === 'out' && way.to !== INNING_OVER && (state & way.to & ON_FIRST) !== 0;
  return RESULTS.indexOf(batterSafe ? 'fielders_choice' : (turn as (typeof RESULTS)[number]));
}
