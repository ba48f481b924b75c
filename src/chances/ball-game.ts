import type { EvenDraws } from './even-draws.ts';
import { flagBit } from './grades.ts';
import type { GrounderModels } from './grounder-models.ts';
import { type Grounders, INFIELD_SIZE } from './grounders.ts';
import { type Ball, InfieldChances } from './infield-chances.ts';

const LINE_UNKNOWN = flagBit('no_bearing') | flagBit('no_speed');

/** Infield indexes (position - 1) of the movable four, in the order of the coalition bits. */
export const MOVABLE = [2, 3, 4, 5] as const;
export const COALITIONS = 1 << MOVABLE.length;
/** Six infielders where they stood, then the movable four where a draw has them. */
const CANDIDATES = INFIELD_SIZE + MOVABLE.length;

/** Infield index of each candidate. */
const INDEX_OF = Uint8Array.from({ length: CANDIDATES }, (_, candidate) =>
  candidate < INFIELD_SIZE ? candidate : MOVABLE[candidate - INFIELD_SIZE],
);

/** For each candidate the coalitions in which he takes part, as bits: fixed men always, the others by where they stand. */
const TAKES_PART = Uint16Array.from({ length: CANDIDATES }, (_, candidate) => {
  let coalitions = 0;
  for (let coalition = 0; coalition < COALITIONS; coalition += 1) {
    const bit = candidate < INFIELD_SIZE ? (MOVABLE as readonly number[]).indexOf(candidate) : candidate - INFIELD_SIZE;
    const atHisStart = bit < 0 || ((coalition >> bit) & 1) === 1;
    if (bit < 0 || atHisStart === candidate < INFIELD_SIZE) coalitions |= 1 << coalition;
  }
  return coalitions;
});

/**
 * One ball after another against the placement that was there and those that others used against like balls: set mark,
 * opening mark and every coalition between (method.md 4 to 6). Raw chances, before balancing. Holds scratch space.
 */
export class BallGame {
  private readonly grounders: Grounders;
  private readonly draws: EvenDraws;
  private readonly arrival = new Float64Array(CANDIDATES);
  private readonly order = new Int32Array(CANDIDATES);
  private readonly ball: Ball = {
    sinBearing: 0,
    cosBearing: 1,
    exitSpeedMph: 0,
    launchAngleDeg: 0,
    surface: 0,
    batterToFirstS: 0,
    state: 0,
  };
  readonly chances: InfieldChances;
  /** Chance to gather and chance of an out after it, by candidate: 0 to 5 where they stood, 6 to 9 the movable in the last draw. */
  readonly reach = new Float64Array(CANDIDATES);
  readonly promise = new Float64Array(CANDIDATES);
  /** Infield indexes in chance order, of the men where they stood. */
  readonly chanceOrder = new Int32Array(INFIELD_SIZE);
  /** V along the chance order, one longer than the order; the last is 0. V[0] is the set mark. */
  readonly value = new Float64Array(INFIELD_SIZE + 1);
  /** draws * 16: the set mark by draw and coalition. */
  readonly coalitionValue: Float64Array;
  /** Coalition bits of those whose chance is not zero, where they stood or in some draw. */
  involved = 0;

  constructor(models: GrounderModels, grounders: Grounders, draws: EvenDraws) {
    this.grounders = grounders;
    this.draws = draws;
    this.chances = new InfieldChances(models);
    this.coalitionValue = new Float64Array(draws.draws * COALITIONS);
  }

  /** Takes the ball `at` and fills reach, promise, chance order and V of the men where they stood. Needs grade `full`. */
  setActual(at: number): void {
    this.setBall(at, at);
    this.stand(at, 0, INFIELD_SIZE);
    this.sortCandidates(0, INFIELD_SIZE);
    this.chanceOrder.set(this.order.subarray(0, INFIELD_SIZE));
    this.value[INFIELD_SIZE] = 0;
    for (let k = INFIELD_SIZE - 1; k >= 0; k -= 1) {
      const i = this.order[k];
      this.value[k] = this.reach[i] * this.promise[i] + (1 - this.reach[i]) * this.value[k + 1];
    }
  }

  /** After setActual: the set mark of every coalition at its starts, the others at each draw's, into `coalitionValue`. */
  playCoalitions(at: number): void {
    const { draws, source } = this.draws;
    this.involved = 0;
    for (let b = 0; b < MOVABLE.length; b += 1) if (this.reach[MOVABLE[b]] > 0) this.involved |= 1 << b;
    for (let d = 0; d < draws; d += 1) {
      this.standAsDrawn(source[at * draws + d]);
      this.order.set(this.chanceOrder);
      this.sortCandidates(INFIELD_SIZE, CANDIDATES);
      this.sumCoalitions(d * COALITIONS);
    }
  }

  /**
   * The opening draws of any grounder, whatever is known of it: the set mark of its ball with each draw's placement into
   * `out[start..]`, and each infielder's average chance to make the out added into `share[shareAt..shareAt+5]`. What the
   * ball lacks (bearing, speed) is taken from the draw as well.
   */
  playOpening(at: number, out: Float64Array, start: number, share: Float64Array, shareAt: number): void {
    const { draws, source } = this.draws;
    const lineKnown = (this.grounders.flags[at] & LINE_UNKNOWN) === 0;
    if (lineKnown) this.setBall(at, at);
    for (let d = 0; d < draws; d += 1) {
      const lender = source[at * draws + d];
      if (!lineKnown) this.setBall(at, lender);
      this.stand(at, 0, 2);
      for (let k = 2; k < INFIELD_SIZE; k += 1) this.standOne(k, k, lender);
      this.sortCandidates(0, INFIELD_SIZE);
      let left = 1;
      let value = 0;
      for (let k = 0; k < INFIELD_SIZE; k += 1) {
        const i = this.order[k];
        const part = left * this.reach[i] * this.promise[i];
        share[shareAt + i] += part / draws;
        value += part;
        left *= 1 - this.reach[i];
      }
      out[start + d] = value;
    }
  }

  private setBall(at: number, lender: number): void {
    const g = this.grounders;
    const line = Number.isNaN(g.bearingDeg[at]) ? lender : at;
    const speed = Number.isNaN(g.exitSpeedMph[at]) ? lender : at;
    this.ball.sinBearing = g.sinBearing[line];
    this.ball.cosBearing = g.cosBearing[line];
    this.ball.exitSpeedMph = g.exitSpeedMph[speed];
    this.ball.launchAngleDeg = g.launchAngleDeg[at];
    this.ball.surface = g.surface[at];
    this.ball.batterToFirstS = g.batterToFirstS[at];
    this.ball.state = g.state[at];
    this.chances.setBall(this.ball);
  }

  /** Puts infielders from..to-1 where the play `of` had them. */
  private stand(of: number, from: number, to: number): void {
    for (let k = from; k < to; k += 1) this.standOne(k, k, of);
  }

  private standAsDrawn(lender: number): void {
    for (let b = 0; b < MOVABLE.length; b += 1) {
      this.standOne(INFIELD_SIZE + b, MOVABLE[b], lender);
      if (this.reach[INFIELD_SIZE + b] > 0) this.involved |= 1 << b;
    }
  }

  private standOne(candidate: number, k: number, of: number): void {
    const from = (of * INFIELD_SIZE + k) * 2;
    this.chances.standAt(k, this.grounders.starts[from], this.grounders.starts[from + 1]);
    this.arrival[candidate] = this.chances.arrival;
    this.reach[candidate] = this.chances.reach;
    this.promise[candidate] = this.chances.promise;
  }

  /** Inserts candidates from..to-1 into `order`, whose first `from` places are sorted. Equal arrivals: by position. */
  private sortCandidates(from: number, to: number): void {
    const { arrival, order } = this;
    for (let candidate = from; candidate < to; candidate += 1) {
      let place = candidate;
      for (; place > 0; place -= 1) {
        const before = order[place - 1];
        if (arrival[before] < arrival[candidate]) break;
        if (arrival[before] === arrival[candidate] && INDEX_OF[before] <= INDEX_OF[candidate]) break;
        order[place] = before;
      }
      order[place] = candidate;
    }
  }

  private sumCoalitions(start: number): void {
    const { order, reach, promise, coalitionValue } = this;
    for (let coalition = 0; coalition < COALITIONS; coalition += 1) {
      let value = 0;
      for (let k = CANDIDATES - 1; k >= 0; k -= 1) {
        const candidate = order[k];
        if ((TAKES_PART[candidate] >> coalition) & 1)
          value = reach[candidate] * promise[candidate] + (1 - reach[candidate]) * value;
      }
      coalitionValue[start + coalition] = value;
    }
  }
}
