import { type ChanceBoard, NINE } from './chance-board.ts';
import { coversFirst, type SpotLimits } from './spot-limits.ts';
import { StandingMen } from './standing-men.ts';

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

/** The men of a question with the answers of every mover at each of his spots; `grids` are x and y in turn. */
export function standMen(question: StartQuestion, grids: readonly Float64Array[]): StandingMen {
  const { board, movers, others, worth, moveCost } = question;
  const still = stillMen(movers);
  const answers = board.answer(
    [...movers.map((position) => position - 1), ...still],
    [...grids, ...still.map((k) => others.slice(2 * k, 2 * k + 2))],
  );
  const costs = grids.map((grid, m) => {
    const [x, y] = others.subarray(2 * movers[m] - 2);
    return Float64Array.from(
      { length: grid.length / 2 },
      (_, s) => moveCost * Math.hypot(grid[2 * s] - x, grid[2 * s + 1] - y),
    );
  });
  return new StandingMen(answers.slice(0, movers.length), costs, answers.slice(movers.length), worth);
}

/** Indexes (position - 1) of those who do not move. */
function stillMen(movers: readonly number[]): number[] {
  return Array.from({ length: NINE }, (_, k) => k).filter((k) => !movers.includes(k + 1));
}

/** Coordinate ascent over fixed spots of each mover; the answers of every man at every spot are asked once. */
export class GridSearch {
  private readonly question: StartQuestion;
  private readonly grids: readonly Float64Array[];
  private readonly men: StandingMen;
  /** By mover: 1 for spots from which first base is covered in time. */
  private readonly covers: readonly Uint8Array[];
  private readonly othersCover: boolean;
  /** Neighbours among the movers. */
  private readonly pairs: readonly (readonly [number, number])[];

  constructor(question: StartQuestion, grids: readonly Float64Array[]) {
    this.question = question;
    this.grids = grids;
    const { movers, others, limits } = question;
    this.men = standMen(question, grids);
    const time = limits.batterToFirstS;
    this.covers = grids.map((grid, m) =>
      Uint8Array.from({ length: grid.length / 2 }, (_, s) =>
        movers[m] <= 6 && coversFirst(grid[2 * s], grid[2 * s + 1], time) ? 1 : 0,
      ),
    );
    this.pairs = NEIGHBOURS.map(([a, b]) => [movers.indexOf(a), movers.indexOf(b)] as const).filter(
      ([a, b]) => a >= 0 && b >= 0,
    );
    this.othersCover = stillMen(movers).some(
      (k) => k >= 2 && k < 6 && coversFirst(others[2 * k], others[2 * k + 1], time),
    );
  }

  /** Moves one man after another to his best spot until nobody gains; `spots` (one a mover) is changed in place. */
  climb(spots: number[]): FoundStarts {
    this.coverFirst(spots);
    let value = this.men.value(spots);
    let settled = 0;
    for (let turn = 0; settled < spots.length && turn < MOST_ROUNDS * spots.length; turn += 1) {
      const m = turn % spots.length;
      const gains = this.men.gains(m, spots);
      const best = this.bestSpot(m, spots, gains, spots[m]);
      value += gains[best] - gains[spots[m]];
      settled = best === spots[m] ? settled + 1 : 1;
      spots[m] = best;
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
        const own = this.men.gains(a, here.spots);
        for (let s = 0; s < grid.length / 2; s += 1) {
          const away = Math.hypot(grid[2 * s] - grid[2 * at], grid[2 * s + 1] - grid[2 * at + 1]);
          if (s === at || away > PAIR_FT) continue;
          const tried = [...here.spots.slice(0, a), s, ...here.spots.slice(a + 1)];
          const gains = this.men.gains(b, tried);
          const best = this.bestSpot(b, tried, gains, -1);
          if (best < 0 || own[s] - own[at] + gains[best] - gains[tried[b]] <= PAIR_GAIN) continue;
          tried[b] = best;
          here = this.climb(tried);
          improved = true;
          break;
        }
      }
    }
    return here;
  }

  /** The best spot that mover m may take, the others where they are: `otherwise` unless another is better, -1 being none. */
  private bestSpot(m: number, spots: readonly number[], gains: Float64Array, otherwise: number): number {
    const covers = this.covers[m];
    const free = this.othersCover || spots.some((s, each) => each !== m && this.covers[each][s] === 1);
    let best = otherwise;
    for (let s = 0; s < gains.length; s += 1)
      if ((best < 0 || gains[s] > gains[best]) && (free || covers[s] === 1)) best = s;
    return best;
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
}
