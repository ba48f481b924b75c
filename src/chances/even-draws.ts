import { hashText } from '../numeric/hash.ts';
import { createRandom } from '../numeric/random.ts';
import type { ClassPlays } from './class-plays.ts';
import { flagBit } from './grades.ts';

/** Which earlier and later plays may lend their placements: the season scored and the two before it, or earlier dates only. */
export type DrawWindow = 'rolling' | 'strict';

export interface DrawSettings {
  /** Draws a play, 24 or more. */
  readonly draws: number;
  readonly window: DrawWindow;
  readonly seed: number;
}

/** For each play, the plays whose placements stand for the average defence (method.md 5). */
export interface EvenDraws {
  readonly draws: number;
  /** count * draws numbers of plays; -1 throughout a play for which there is nothing to draw from. */
  readonly source: Int32Array;
  /** Bits of FLAGS that say where a play's draws are less like it than they should be. */
  readonly flags: Uint16Array;
}

export const FEWEST_DRAWS = 24;
const SEASONS_BACK = 2;
/** Like bearing: not farther than this, and not more than this many times the draws, nearest first. */
const LIKE_BEARING_DEG = 6;
const POOL_TIMES = 8;

/**
 * Base-out states as they matter for where infielders stand: a runner on third with fewer than two outs (infield in), a
 * runner on first (held, and with fewer than two outs double-play depth), two outs, and the rest.
 */
export function situationOf(state: number): number {
  const outs = state >> 3;
  const bases = state & 7;
  if (outs < 2 && bases & 4) return 0;
  if (bases & 1) return outs < 2 ? 1 : 2;
  return 3;
}

const SITUATIONS = 4;

const UNFIT_GROUNDERS = flagBit('no_starts') | flagBit('no_bearing') | flagBit('no_speed');

/** Rules by which a pool is looked for, strictest first; each later one gives up one more likeness and says so. */
const RULES = [
  { likeState: true, likeBearing: true, otherClub: true, inWindow: true, flag: 0 },
  { likeState: false, likeBearing: true, otherClub: true, inWindow: true, flag: flagBit('few_like_balls') },
  { likeState: false, likeBearing: false, otherClub: true, inWindow: true, flag: flagBit('few_like_balls') },
  { likeState: false, likeBearing: true, otherClub: true, inWindow: false, flag: flagBit('later_placements') },
  { likeState: false, likeBearing: false, otherClub: false, inWindow: false, flag: flagBit('own_clubs_placements') },
] as const;

/** Chooses the draws. The same plays give the same draws whatever their order; seeded by play id. Throws RangeError under 24 draws. */
export function chooseEvenDraws(plays: ClassPlays, settings: DrawSettings): EvenDraws {
  const { draws } = settings;
  if (!(draws >= FEWEST_DRAWS)) throw new RangeError(`at least ${FEWEST_DRAWS} draws are needed, received ${draws}`);
  const source = new Int32Array(plays.count * draws).fill(-1);
  const flags = new Uint16Array(plays.count);
  const lists = sortedLenders(plays);
  const pool = new Int32Array(draws * POOL_TIMES);
  for (let at = 0; at < plays.count; at += 1) {
    const side = plays.table.batterSide[plays.row[at]];
    for (const rule of RULES) {
      const list = rule.likeState
        ? lists.bySituation[side * SITUATIONS + situationOf(plays.state[at])]
        : lists.bySide[side];
      const found = fillPool(plays, at, list, rule, settings.window, pool);
      if (found < (rule.inWindow ? draws : 1)) continue;
      flags[at] = rule.flag;
      // Systematic sampling along the bearing: every draw stands for an equal part of the pool.
      const offset = createRandom(hashText(plays.table.playId[plays.row[at]], settings.seed)).next();
      for (let d = 0; d < draws; d += 1) source[at * draws + d] = pool[Math.floor(((d + offset) * found) / draws)];
      break;
    }
  }
  return { draws, source, flags };
}

/** Plays whose ball and movable men are known, by side and situation, and by side, each sorted by bearing. */
function sortedLenders(plays: ClassPlays): { bySituation: Int32Array[]; bySide: Int32Array[] } {
  const unusable = plays.unfitToLend ?? UNFIT_GROUNDERS;
  const bySituation: number[][] = Array.from({ length: 2 * SITUATIONS }, () => []);
  const bySide: number[][] = [[], []];
  for (let at = 0; at < plays.count; at += 1) {
    if (plays.flags[at] & unusable) continue;
    const side = plays.table.batterSide[plays.row[at]];
    bySituation[side * SITUATIONS + situationOf(plays.state[at])].push(at);
    bySide[side].push(at);
  }
  const rank = canonicalRank(plays);
  const sort = (list: number[]) =>
    Int32Array.from(list).sort((a, b) => plays.bearingDeg[a] - plays.bearingDeg[b] || rank[a] - rank[b]);
  return { bySituation: bySituation.map(sort), bySide: bySide.map(sort) };
}

/** Each play's place by season and play id, so that ties fall alike whatever the order of the rows. */
function canonicalRank({ count, table, row, season }: ClassPlays): Int32Array {
  const order = Int32Array.from({ length: count }, (_, at) => at);
  const compare = (a: number, b: number) =>
    season[a] - season[b] || (table.playId[row[a]] < table.playId[row[b]] ? -1 : 1);
  if (order.some((at) => at > 0 && compare(at - 1, at) > 0)) order.sort(compare);
  const rank = new Int32Array(count);
  order.forEach((at, place) => {
    rank[at] = place;
  });
  return rank;
}

/** Fills the pool with the lenders nearest in bearing that the rule lets in, sorted by bearing. Returns how many. */
function fillPool(
  plays: ClassPlays,
  at: number,
  list: Int32Array,
  rule: (typeof RULES)[number],
  window: DrawWindow,
  pool: Int32Array,
): number {
  const { table, row, bearingDeg, season } = plays;
  const bearing = bearingDeg[at];
  const team = table.fieldingTeam[row[at]];
  const date = table.date[row[at]];
  const admits = (lender: number) =>
    lender !== at &&
    !(rule.otherClub && table.fieldingTeam[row[lender]] === team) &&
    !(rule.inWindow && (season[lender] > season[at] || season[lender] < season[at] - SEASONS_BACK)) &&
    !(rule.inWindow && window === 'strict' && table.date[row[lender]] >= date);

  // An unknown bearing is like every other: the pool is then spread over the whole list.
  if (Number.isNaN(bearing) || !rule.likeBearing) return spreadOverList(list, admits, pool);

  let left = lowerBound(list, bearingDeg, bearing) - 1;
  let right = left + 1;
  let before = 0;
  let after = 0;
  const half = pool.length / 2;
  // Nearest first on each side; the left half is filled from the middle down so that the whole stays sorted.
  for (; left >= 0 && before < half && bearing - bearingDeg[list[left]] <= LIKE_BEARING_DEG; left -= 1) {
    if (admits(list[left])) pool[half - 1 - before++] = list[left];
  }
  for (; right < list.length && after < half && bearingDeg[list[right]] - bearing <= LIKE_BEARING_DEG; right += 1) {
    if (admits(list[right])) pool[half + after++] = list[right];
  }
  pool.copyWithin(0, half - before, half + after);
  return before + after;
}

function spreadOverList(list: Int32Array, admits: (lender: number) => boolean, pool: Int32Array): number {
  const admitted = list.filter(admits);
  const found = Math.min(admitted.length, pool.length);
  for (let k = 0; k < found; k += 1) pool[k] = admitted[Math.floor((k * admitted.length) / found)];
  return found;
}

/** First place in the list whose bearing is not below `bearing`. */
function lowerBound(list: Int32Array, bearingDeg: Float64Array, bearing: number): number {
  let lo = 0;
  let hi = list.length;
  while (lo < hi) {
    const middle = (lo + hi) >> 1;
    if (bearingDeg[list[middle]] < bearing) lo = middle + 1;
    else hi = middle;
  }
  return lo;
}
