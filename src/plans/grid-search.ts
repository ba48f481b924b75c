import { type ChanceBoard, NINE, type SpotAnswers } from './chance-board.ts';
import { coversFirst, type SpotLimits } from './spot-limits.ts';

/** What a search is for: balls with what an out on each is worth, the men who move, and what bounds them. */
export interface StartQuestion {
  readonly board: ChanceBoard;
  /** Weight times stake of every ball: what is maximised is the sum of worth times set mark. */
  readonly worth: Float64Array;
  /** Nine (x, y) pairs: where those stand who do not move, and from where the others' moves are counted. */
  readonly others: Float64Array;
  /** What a foot of a move has to be worth, in the unit of the sum: nobody is sent anywhere for nothing. */
  readonly moveCost: number;
  /** Positions that move. */
  readonly movers: readonly number[];
  readonly limits: SpotLimits;
}

export interface FoundStarts {
  /** Number of each mover's spot on the grid that was searched. */
  readonly spots: readonly number[];
  /** Nine (x, y) pairs. */
  readonly starts: Float64Array;
  /** Sum of worth times set mark, less what the moves cost. */
  readonly value: number;
}

const MOST_ROUNDS = 30;
/** Positions that cover the same ground from two sides and may have to move together. */
const NEIGHBOURS: readonly (readonly [number, number])[] = [
  [3, 4],
  [4, 6],
  [6, 5],
  [7, 8],
  [8, 9],
];
/** The first of two neighbours is tried at every spot this near to his own, feet. */
const PAIR_FT = 13;
/** A pair has to gain this much of what there is to be had in all, else it stays. */
const PAIR_GAIN = 1e-7;

/** Coordinate ascent over fixed spots of each mover; the answers of every man at every spot are asked once. */
export class GridSearch {
  private readonly question: StartQuestion;
  private readonly grids: readonly Float64Array[];
  /** By mover, then the men who do not move. */
  private readonly answers: readonly SpotAnswers[];
  /** By mover: the first of his spots from which he has a chance at each ball, and the one after the last. */
  private readonly within: readonly { readonly from: Uint16Array; readonly to: Uint16Array }[];
  /** By mover: what it costs to send him to each of his spots. */
  private readonly costs: readonly Float64Array[];
  /** By mover: 1 for spots from which first base is covered in time. */
  private readonly covers: readonly Uint8Array[];
  private readonly othersCover: boolean;
  /** Neighbours among the movers. */
  private readonly pairs: readonly (readonly [number, number])[];
  private readonly before: Float64Array;
  private readonly left: Float64Array;
  private readonly after: Float64Array;
  private readonly turns: Float64Array;
  private readonly reaches: Float64Array;
  private readonly promises: Float64Array;

  constructor(question: StartQuestion, grids: readonly Float64Array[]) {
    this.question = question;
    this.grids = grids;
    const { movers, others, limits } = question;
    const still = Array.from({ length: NINE }, (_, k) => k).filter((k) => !movers.includes(k + 1));
    this.answers = question.board.answer(
      [...movers.map((position) => position - 1), ...still],
      [...grids, ...still.map((k) => others.slice(2 * k, 2 * k + 2))],
    );
    this.within = grids.map((_, m) => withChance(this.answers[m], question.worth.length));
    this.costs = grids.map((grid, m) => {
      const [x, y] = others.subarray(2 * movers[m] - 2);
      return Float64Array.from(
        { length: grid.length / 2 },
        (_, s) => question.moveCost * Math.hypot(grid[2 * s] - x, grid[2 * s + 1] - y),
      );
    });
    const time = limits.batterToFirstS;
    this.covers = grids.map((grid, m) =>
      Uint8Array.from({ length: grid.length / 2 }, (_, s) =>
        movers[m] <= 6 && coversFirst(grid[2 * s], grid[2 * s + 1], time) ? 1 : 0,
      ),
    );
    this.pairs = NEIGHBOURS.map(([a, b]) => [movers.indexOf(a), movers.indexOf(b)] as const).filter(
      ([a, b]) => a >= 0 && b >= 0,
    );
    this.othersCover = still.some((k) => k >= 2 && k < 6 && coversFirst(others[2 * k], others[2 * k + 1], time));
    const scratch = () => new Float64Array(NINE + 1);
    this.before = scratch();
    this.left = scratch();
    this.after = scratch();
    this.turns = scratch();
    this.reaches = scratch();
    this.promises = scratch();
  }

  /** Moves one man after another to his best spot until nobody gains; `spots` (one a mover) is changed in place. */
  climb(spots: number[]): FoundStarts {
    this.coverFirst(spots);
    let value = Number.NEGATIVE_INFINITY;
    for (let round = 0; round < MOST_ROUNDS; round += 1) {
      const began = value;
      for (let m = 0; m < spots.length; m += 1) {
        const values = this.valuesOf(m, spots);
        const free = this.othersCover || spots.some((s, each) => each !== m && this.covers[each][s] === 1);
        let best = spots[m];
        for (let s = 0; s < values.length; s += 1) {
          if (values[s] > values[best] && (free || this.covers[m][s] === 1)) best = s;
        }
        spots[m] = best;
        value = values[best];
      }
      if (!(value > began + 1e-12)) break;
    }
    return { spots, starts: this.startsOf(spots), value };
  }

  /**
   * Goes on where no single man gains by moving: two neighbours move together, one of them to any near spot and the other to the
   * best that is then left, until no pair gains.
   */
  climbPairs(from: FoundStarts): FoundStarts {
    let here = from;
    for (let improved = true; improved; ) {
      improved = false;
      for (const [a, b] of this.pairs) {
        const grid = this.grids[a];
        const at = here.spots[a];
        for (let s = 0; s < grid.length / 2; s += 1) {
          const away = Math.hypot(grid[2 * s] - grid[2 * at], grid[2 * s + 1] - grid[2 * at + 1]);
          if (s === at || away > PAIR_FT) continue;
          const tried = this.withBest(b, [...here.spots.slice(0, a), s, ...here.spots.slice(a + 1)]);
          if (tried.value <= here.value + PAIR_GAIN) continue;
          here = this.climb([...tried.spots]);
          improved = true;
          break;
        }
      }
    }
    return here;
  }

  /** The spots given but for mover m, who takes his best. */
  private withBest(m: number, spots: number[]): { readonly spots: readonly number[]; readonly value: number } {
    const values = this.valuesOf(m, spots);
    const free = this.othersCover || spots.some((s, each) => each !== m && this.covers[each][s] === 1);
    let best = -1;
    for (let s = 0; s < values.length; s += 1)
      if ((best < 0 || values[s] > values[best]) && (free || this.covers[m][s] === 1)) best = s;
    if (best < 0) return { spots, value: Number.NEGATIVE_INFINITY };
    spots[m] = best;
    return { spots, value: values[best] };
  }

  /** Where nobody could be at first base in time, the man with the shortest way is sent nearer. */
  private coverFirst(spots: number[]): void {
    if (this.othersCover || spots.some((s, m) => this.covers[m][s] === 1)) return;
    let least = Number.POSITIVE_INFINITY;
    let who = -1;
    let where = 0;
    this.grids.forEach((grid, m) => {
      for (let s = 0; s < grid.length / 2; s += 1) {
        const from = spots[m];
        const away = Math.hypot(grid[2 * s] - grid[2 * from], grid[2 * s + 1] - grid[2 * from + 1]);
        if (this.covers[m][s] === 0 || away >= least) continue;
        least = away;
        who = m;
        where = s;
      }
    });
    if (who >= 0) spots[who] = where;
  }

  private startsOf(spots: readonly number[]): Float64Array {
    const starts = this.question.others.slice();
    this.question.movers.forEach((position, m) => {
      starts[2 * position - 2] = this.grids[m][2 * spots[m]];
      starts[2 * position - 1] = this.grids[m][2 * spots[m] + 1];
    });
    return starts;
  }

  /** The value with mover m at each of his spots, the others where they are. */
  private valuesOf(m: number, spots: readonly number[]): Float64Array {
    const { worth } = this.question;
    const { before, left, after, turns } = this;
    const { spots: count, turn, reach, promise } = this.answers[m];
    const { from: first, to: end } = this.within[m];
    const values = new Float64Array(count);
    let constant = 0;
    for (let at = 0; at < worth.length; at += 1) {
      const men = this.lineUpOthers(at, m, spots);
      const without = worth[at] * after[0];
      constant += without;
      for (let s = first[at], from = at * count + s; s < end[at]; s += 1, from += 1) {
        const h = reach[from];
        if (h === 0) continue;
        const t = turn[from];
        let place = 0;
        while (place < men && turns[place] <= t) place += 1;
        const value = before[place] + left[place] * (h * promise[from] + (1 - h) * after[place]);
        values[s] += worth[at] * value - without;
      }
    }
    for (let each = 0; each < spots.length; each += 1) if (each !== m) constant -= this.costs[each][spots[each]];
    for (let s = 0; s < count; s += 1) values[s] += constant - this.costs[m][s];
    return values;
  }

  /** Everybody but mover m in chance order on one ball: what is made of it before each place, what is left of it, and V after. */
  private lineUpOthers(at: number, m: number, spots: readonly number[]): number {
    const { answers, before, left, after, turns, reaches, promises } = this;
    let men = 0;
    for (let each = 0; each < answers.length; each += 1) {
      if (each === m) continue;
      const answer = answers[each];
      const from = at * answer.spots + (each < spots.length ? spots[each] : 0);
      const h = answer.reach[from];
      if (h === 0) continue;
      const t = answer.turn[from];
      let place = men;
      for (; place > 0 && turns[place - 1] > t; place -= 1) {
        turns[place] = turns[place - 1];
        reaches[place] = reaches[place - 1];
        promises[place] = promises[place - 1];
      }
      turns[place] = t;
      reaches[place] = h;
      promises[place] = answer.promise[from];
      men += 1;
    }
    before[0] = 0;
    left[0] = 1;
    for (let place = 0; place < men; place += 1) {
      before[place + 1] = before[place] + left[place] * reaches[place] * promises[place];
      left[place + 1] = left[place] * (1 - reaches[place]);
    }
    after[men] = 0;
    for (let place = men - 1; place >= 0; place -= 1)
      after[place] = reaches[place] * promises[place] + (1 - reaches[place]) * after[place + 1];
    return men;
  }
}

function withChance({ spots, reach }: SpotAnswers, balls: number) {
  const from = new Uint16Array(balls);
  const to = new Uint16Array(balls);
  for (let at = 0; at < balls; at += 1) {
    const row = reach.subarray(at * spots, (at + 1) * spots);
    let [first, end] = [0, spots];
    while (first < end && row[first] === 0) first += 1;
    while (end > first && row[end - 1] === 0) end -= 1;
    from[at] = first;
    to[at] = end;
  }
  return { from, to };
}
