import type { ClassPlays } from './class-plays.ts';
import type { DefenderChances } from './defender-chances.ts';
import type { EvenDraws } from './even-draws.ts';
import { leftToHim } from './left-to-him.ts';

/** Where the men of some plays stood; all that a game asks of plays. */
export type Placements = Pick<ClassPlays, 'men' | 'starts'>;

/** Which plays lend theirs. */
export type LentPlacements = Pick<EvenDraws, 'draws' | 'source'>;

/**
 * One ball after another against the placement that was there and those that others used against like balls: set mark,
 * opening mark and every coalition between (method.md 4 to 6). Raw chances, before balancing. Holds scratch space.
 */
export class BallGame {
  readonly plays: Placements;
  /** Indexes (position - 1) of the men who move with ball and batter. */
  readonly movable: readonly number[];
  /** Turn, chance to gather and chance of an out after it of every man where he stood. */
  private readonly turn: Float64Array;
  readonly reach: Float64Array;
  /** The same once those before him left the ball: other than `reach` only where men call for it. */
  readonly given: Float64Array;
  readonly promise: Float64Array;
  /** Indexes in chance order, of the men where they stood. */
  readonly chanceOrder: Int32Array;
  /** V along the chance order, one longer than the order; the last is 0. V[0] is the set mark. */
  readonly value: Float64Array;
  /** Indexes of the movable men with any chance, where they stood or in some draw; the first `playerCount` count. */
  readonly players: Int32Array;
  playerCount = 0;
  /** draws * 2^playerCount: the set mark by draw and coalition of the players. */
  readonly coalitionValue: Float64Array;

  private readonly chances: DefenderChances;
  private readonly draws: LentPlacements;
  /** The same three numbers of the movable men in each draw: draws * movable. */
  private readonly drawnTurn: Float64Array;
  private readonly drawnReach: Float64Array;
  private readonly drawnPromise: Float64Array;
  private readonly chain: Chain;

  constructor(plays: Placements, chances: DefenderChances, draws: LentPlacements, movable: readonly number[]) {
    this.plays = plays;
    this.chances = chances;
    this.draws = draws;
    this.movable = movable;
    this.turn = new Float64Array(plays.men);
    this.reach = new Float64Array(plays.men);
    this.given = new Float64Array(plays.men);
    this.promise = new Float64Array(plays.men);
    this.chanceOrder = new Int32Array(plays.men);
    this.value = new Float64Array(plays.men + 1);
    this.players = new Int32Array(movable.length);
    this.coalitionValue = new Float64Array(draws.draws << movable.length);
    const drawn = draws.draws * movable.length;
    this.drawnTurn = new Float64Array(drawn);
    this.drawnReach = new Float64Array(drawn);
    this.drawnPromise = new Float64Array(drawn);
    this.chain = new Chain(plays.men + movable.length, chances.isCalledFor);
  }

  /** Takes the ball `at` and fills reach, promise, chance order and V of the men where they stood. Needs grade `full`. */
  setActual(at: number): void {
    const { plays, chances, chanceOrder, turn, reach, given, promise, value } = this;
    chances.setBall(at, at);
    for (let k = 0; k < plays.men; k += 1) {
      this.standAt(k, at, k);
      turn[k] = chances.turn;
      reach[k] = chances.reach;
      promise[k] = chances.promise;
      let place = k;
      while (place > 0 && turn[chanceOrder[place - 1]] > turn[k]) {
        chanceOrder[place] = chanceOrder[place - 1];
        place -= 1;
      }
      chanceOrder[place] = k;
    }
    this.giveInOrder(-1);
    value[plays.men] = 0;
    for (let place = plays.men - 1; place >= 0; place -= 1) {
      const k = chanceOrder[place];
      value[place] = given[k] * promise[k] + (1 - given[k]) * value[place + 1];
    }
  }

  /** After setActual: the set mark had the man of index `absent` not been there. Leaves `given` as if he were not. */
  valueWithout(absent: number): number {
    this.giveInOrder(absent);
    const { plays, chanceOrder, given, promise } = this;
    let value = 0;
    for (let place = plays.men - 1; place >= 0; place -= 1) {
      const k = chanceOrder[place];
      if (k !== absent) value = given[k] * promise[k] + (1 - given[k]) * value;
    }
    return value;
  }

  private giveInOrder(absent: number): void {
    const { chanceOrder, reach, given } = this;
    let left = 1;
    for (const k of chanceOrder) {
      given[k] = left < 1 && reach[k] > 0 && this.chances.isCalledFor ? leftToHim(reach[k], left) : reach[k];
      if (k !== absent) left *= 1 - given[k];
    }
  }

  /** After setActual: the set mark of every coalition of the players at their starts, the others at each draw's. */
  playCoalitions(at: number): void {
    this.standAsDrawn(at);
    this.findPlayers();
    const { chain, playerCount, movable, coalitionValue } = this;
    const coalitions = 1 << playerCount;
    for (let d = 0; d < this.draws.draws; d += 1) {
      chain.clear();
      for (const k of this.chanceOrder) {
        const bit = this.bitOf(k);
        if (bit >= 0 || !movable.includes(k)) chain.add(k, this.turn[k], this.reach[k], this.promise[k], bit, true);
      }
      for (let b = 0; b < movable.length; b += 1) {
        const bit = this.bitOf(movable[b]);
        const from = d * movable.length + b;
        if (bit >= 0)
          chain.add(movable[b], this.drawnTurn[from], this.drawnReach[from], this.drawnPromise[from], bit, false);
      }
      for (let coalition = 0; coalition < coalitions; coalition += 1) {
        coalitionValue[d * coalitions + coalition] = chain.valueOf(coalition);
      }
    }
  }

  /**
   * The opening draws of any play, whatever is known of it: the set mark of its ball with each draw's placement into
   * `out[start..]`, and each man's average chance to make the out added into `share[shareAt..]`.
   */
  playOpening(at: number, out: Float64Array, start: number, share: Float64Array, shareAt: number): void {
    const { plays, chances, draws, chain, movable } = this;
    for (let d = 0; d < draws.draws; d += 1) {
      const lender = draws.source[at * draws.draws + d];
      chances.setBall(at, lender);
      chain.clear();
      for (let k = 0; k < plays.men; k += 1) {
        this.standAt(k, movable.includes(k) ? lender : at, k);
        chain.add(k, chances.turn, chances.reach, chances.promise, k, true);
      }
      out[start + d] = chain.shareOut(1 / draws.draws, share, shareAt);
    }
  }

  private standAt(k: number, of: number, man: number): void {
    const from = (of * this.plays.men + man) * 2;
    this.chances.standAt(k, this.plays.starts[from], this.plays.starts[from + 1]);
  }

  private standAsDrawn(at: number): void {
    const { draws, movable, chances } = this;
    for (let d = 0; d < draws.draws; d += 1) {
      const lender = draws.source[at * draws.draws + d];
      for (let b = 0; b < movable.length; b += 1) {
        this.standAt(movable[b], lender, movable[b]);
        const to = d * movable.length + b;
        this.drawnTurn[to] = chances.turn;
        this.drawnReach[to] = chances.reach;
        this.drawnPromise[to] = chances.promise;
      }
    }
  }

  private findPlayers(): void {
    const { movable, draws } = this;
    this.playerCount = 0;
    for (let b = 0; b < movable.length; b += 1) {
      let involved = this.reach[movable[b]] > 0;
      for (let d = 0; d < draws.draws && !involved; d += 1) involved = this.drawnReach[d * movable.length + b] > 0;
      if (involved) this.players[this.playerCount++] = movable[b];
    }
    // Nobody who moves has a chance: all share what little the balance leaves between opening and set.
    if (this.playerCount === 0) for (const k of movable) this.players[this.playerCount++] = k;
  }

  /** Bit of a player in a coalition, -1 for a man who is none. */
  private bitOf(k: number): number {
    for (let bit = 0; bit < this.playerCount; bit += 1) if (this.players[bit] === k) return bit;
    return -1;
  }
}

/** Men in chance order with their chances, each tied to a coalition bit or to none. */
class Chain {
  private count = 0;
  private readonly man: Int32Array;
  private readonly turn: Float64Array;
  private readonly reach: Float64Array;
  private readonly promise: Float64Array;
  /** A link takes part in a coalition when its bits under `mask` are `want`. */
  private readonly mask: Int32Array;
  private readonly want: Int32Array;
  private readonly bit: Int32Array;
  private readonly isCalledFor: boolean;

  constructor(capacity: number, isCalledFor: boolean) {
    this.isCalledFor = isCalledFor;
    this.man = new Int32Array(capacity);
    this.turn = new Float64Array(capacity);
    this.reach = new Float64Array(capacity);
    this.promise = new Float64Array(capacity);
    this.mask = new Int32Array(capacity);
    this.want = new Int32Array(capacity);
    this.bit = new Int32Array(capacity);
  }

  clear(): void {
    this.count = 0;
  }

  /** Inserts a man by his turn, equal turns by position. One without a chance changes nothing and is left out. */
  add(man: number, turn: number, reach: number, promise: number, bit: number, atHisStart: boolean): void {
    if (reach <= 0) return;
    let place = this.count;
    while (place > 0 && (this.turn[place - 1] > turn || (this.turn[place - 1] === turn && this.man[place - 1] > man))) {
      this.man[place] = this.man[place - 1];
      this.turn[place] = this.turn[place - 1];
      this.reach[place] = this.reach[place - 1];
      this.promise[place] = this.promise[place - 1];
      this.mask[place] = this.mask[place - 1];
      this.want[place] = this.want[place - 1];
      this.bit[place] = this.bit[place - 1];
      place -= 1;
    }
    this.man[place] = man;
    this.turn[place] = turn;
    this.reach[place] = reach;
    this.promise[place] = promise;
    this.mask[place] = bit < 0 ? 0 : 1 << bit;
    this.want[place] = bit >= 0 && atHisStart ? 1 << bit : 0;
    this.bit[place] = bit;
    this.count += 1;
  }

  /** Set mark with those who take part in the coalition. */
  valueOf(coalition: number): number {
    if (this.isCalledFor) return this.valueCalledFor(coalition);
    let value = 0;
    for (let place = this.count - 1; place >= 0; place -= 1) {
      if ((coalition & this.mask[place]) !== this.want[place]) continue;
      value = this.reach[place] * this.promise[place] + (1 - this.reach[place]) * value;
    }
    return value;
  }

  private valueCalledFor(coalition: number): number {
    let left = 1;
    let value = 0;
    for (let place = 0; place < this.count; place += 1) {
      if ((coalition & this.mask[place]) !== this.want[place]) continue;
      const given = left < 1 ? leftToHim(this.reach[place], left) : this.reach[place];
      value += left * given * this.promise[place];
      left *= 1 - given;
    }
    return value;
  }

  /** Set mark of all, each man's part of it times `weight` added to `share[at + bit]`. */
  shareOut(weight: number, share: Float64Array, at: number): number {
    let left = 1;
    let value = 0;
    for (let place = 0; place < this.count; place += 1) {
      const given = this.isCalledFor && left < 1 ? leftToHim(this.reach[place], left) : this.reach[place];
      const part = left * given * this.promise[place];
      share[at + this.bit[place]] += part * weight;
      value += part;
      left *= 1 - given;
    }
    return value;
  }
}
