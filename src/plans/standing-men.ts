import { NINE, type SpotAnswers } from './chance-board.ts';

/** Balls for which some spot of a man has a chance: numbers of his first such spot and of the one after the last. */
interface Window {
  readonly from: Uint16Array;
  readonly to: Uint16Array;
}

/** One man's answers at the spot where he stands, by ball. */
interface Stood {
  readonly turn: Float32Array;
  readonly reach: Float32Array;
  readonly promise: Float32Array;
}

/** Men who never move, by ball in chance order; those of ball `at` are the entries from begin[at] on, below begin[at + 1]. */
interface Still extends Stood {
  readonly begin: Int32Array;
}

/**
 * Men at one of their spots each: what they make of all balls together, and what each spot of one of them would add to what the
 * others make (method.md 4), less what it costs to send them there. Holds scratch space.
 */
export class StandingMen {
  private readonly worth: Float64Array;
  /** By mover. */
  private readonly answers: readonly SpotAnswers[];
  private readonly costs: readonly Float64Array[];
  private readonly windows: readonly Window[];
  private readonly stood: readonly Stood[];
  private readonly spots: Int32Array;
  private readonly still: Still;
  /** Gains by mover and the others' spots: a search comes by the same line-ups again and again. */
  private readonly known = new Map<string, Float64Array>();
  /** The men lined up on one ball, and by place among them: the share of it that comes so far, and what is made of it from there on. */
  private readonly line: Stood = { turn: scratch(), reach: scratch(), promise: scratch() };
  private readonly left = new Float64Array(NINE + 1);
  private readonly after = new Float64Array(NINE + 1);

  /** `costs` by mover and spot; `still` are men of one spot each. What is summed is `worth` of every ball times its set mark. */
  constructor(
    movers: readonly SpotAnswers[],
    costs: readonly Float64Array[],
    still: readonly SpotAnswers[],
    worth: Float64Array,
  ) {
    this.worth = worth;
    this.answers = movers;
    this.costs = costs;
    this.windows = movers.map((answers) => windowOf(answers, worth.length));
    const column = () => new Float32Array(worth.length);
    this.stood = movers.map(() => ({ turn: column(), reach: column(), promise: column() }));
    this.spots = new Int32Array(movers.length).fill(-1);
    this.still = lineUpStill(still, worth.length);
  }

  /** With every mover at one of his spots. */
  value(spots: readonly number[]): number {
    this.stand(spots);
    let value = 0;
    for (let m = 0; m < spots.length; m += 1) value -= this.costs[m][spots[m]];
    for (let at = 0; at < this.worth.length; at += 1) {
      this.lineUp(at, -1);
      value += this.worth[at] * this.after[0];
    }
    return value;
  }

  /** By spot of mover m: what he adds there to the value that the others have without him; `spots` tells where these are. */
  gains(m: number, spots: readonly number[]): Float64Array {
    const key = spots.map((spot, each) => (each === m ? -1 : spot)).join();
    const known = this.known.get(key);
    if (known !== undefined) return known;
    this.stand(spots);
    const gains = this.sumGains(m);
    this.known.set(key, gains);
    return gains;
  }

  private stand(spots: readonly number[]): void {
    spots.forEach((spot, m) => {
      if (this.spots[m] === spot) return;
      this.spots[m] = spot;
      const { turn, reach, promise } = this.stood[m];
      const answers = this.answers[m];
      for (let at = 0, from = spot; at < turn.length; at += 1, from += answers.spots) {
        turn[at] = answers.turn[from];
        reach[at] = answers.reach[from];
        promise[at] = answers.promise[from];
      }
    });
  }

  private sumGains(m: number): Float64Array {
    const { worth, left, after } = this;
    const { turn: turns } = this.line;
    const { spots: count, turn, reach, promise } = this.answers[m];
    const { from: first, to: end } = this.windows[m];
    const gains = this.costs[m].map((cost) => -cost);
    for (let at = 0; at < worth.length; at += 1) {
      if (first[at] === end[at]) continue;
      const men = this.lineUp(at, m);
      let place = 0;
      for (let s = first[at], from = at * count + s; s < end[at]; s += 1, from += 1) {
        const h = reach[from];
        if (h === 0) continue;
        const t = turn[from];
        while (place > 0 && turns[place - 1] > t) place -= 1;
        while (place < men && turns[place] <= t) place += 1;
        // He takes part of what is left, and what those after him would have made of it is not made.
        gains[s] += worth[at] * left[place] * h * (promise[from] - after[place]);
      }
    }
    return gains;
  }

  /** Lines up everybody but mover m who has a chance of a ball; returns how many they are. */
  private lineUp(at: number, m: number): number {
    const { line, still, stood, left, after } = this;
    const { turn, reach, promise } = line;
    let men = 0;
    for (let k = still.begin[at]; k < still.begin[at + 1]; k += 1, men += 1) {
      turn[men] = still.turn[k];
      reach[men] = still.reach[k];
      promise[men] = still.promise[k];
    }
    for (let each = 0; each < stood.length; each += 1) {
      const man = stood[each];
      if (each === m || man.reach[at] === 0) continue;
      insert(line, men, man, at);
      men += 1;
    }
    left[0] = 1;
    for (let place = 0; place < men; place += 1) left[place + 1] = left[place] * (1 - reach[place]);
    after[men] = 0;
    for (let place = men - 1; place >= 0; place -= 1)
      after[place] = reach[place] * promise[place] + (1 - reach[place]) * after[place + 1];
    return men;
  }
}

function scratch(): Float32Array {
  return new Float32Array(NINE + 1);
}

/** Puts entry `at` of `from` into its place among the first `men` of a line. */
function insert({ turn, reach, promise }: Stood, men: number, from: Stood, at: number): void {
  const t = from.turn[at];
  let place = men;
  for (; place > 0 && turn[place - 1] > t; place -= 1) {
    turn[place] = turn[place - 1];
    reach[place] = reach[place - 1];
    promise[place] = promise[place - 1];
  }
  turn[place] = t;
  reach[place] = from.reach[at];
  promise[place] = from.promise[at];
}

function lineUpStill(men: readonly SpotAnswers[], balls: number): Still {
  const line: Stood = { turn: scratch(), reach: scratch(), promise: scratch() };
  const begin = new Int32Array(balls + 1);
  const column = () => new Float32Array(balls * men.length);
  const all = { turn: column(), reach: column(), promise: column() };
  for (let at = 0; at < balls; at += 1) {
    let count = 0;
    for (const man of men) {
      if (man.reach[at] === 0) continue;
      insert(line, count, man, at);
      count += 1;
    }
    for (const name of ['turn', 'reach', 'promise'] as const) all[name].set(line[name].subarray(0, count), begin[at]);
    begin[at + 1] = begin[at] + count;
  }
  return { ...all, begin };
}

function windowOf({ spots, reach }: SpotAnswers, balls: number): Window {
  const from = new Uint16Array(balls);
  const to = new Uint16Array(balls);
  for (let at = 0; at < balls; at += 1) {
    let [first, end] = [at * spots, (at + 1) * spots];
    while (first < end && reach[first] === 0) first += 1;
    while (end > first && reach[end - 1] === 0) end -= 1;
    from[at] = first - at * spots;
    to[at] = end - at * spots;
  }
  return { from, to };
}
