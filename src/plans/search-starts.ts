import type { Random } from '../numeric/random.ts';
import { type FoundStarts, GridSearch, type StartQuestion } from './grid-search.ts';
import { spotGrid, spotsAround } from './spot-limits.ts';

const COARSE_FT = 5;
const MOST_SPOTS = 180;
/** How many of the best places of the coarse search are looked at closely. */
const POLISHED = 2;
const ZOOMS = [
  { stepFt: 1.5, steps: 3 },
  { stepFt: 0.4, steps: 3 },
];
/** A zoom that ends at the border of its squares is repeated, but not for ever. */
const MOST_REPEATS = 6;

/**
 * The best starts that were found: from every beginning (placements, and as many at random), each man in turn goes to the best
 * spot of a grid given the others until nobody gains; the best few go on with two neighbours moving together, then on finer grids. Only the man who moves is asked
 * anew: the others' answers stand. Deterministic; every start keeps within the limits.
 */
export function searchStarts(
  question: StartQuestion,
  beginnings: readonly Float64Array[],
  atRandom: number,
  random: Random,
): FoundStarts {
  const { movers, limits } = question;
  const grids = movers.map((position) => spotGrid(limits, position, COARSE_FT, MOST_SPOTS));
  const coarse = new GridSearch(question, grids);
  const chosen = [
    ...beginnings.map((starts) => grids.map((grid, m) => nearest(grid, starts, movers[m]))),
    ...Array.from({ length: atRandom }, () => grids.map((grid) => random.integer(grid.length / 2))),
  ];
  const ends = distinct(chosen.map((spots) => coarse.climb(spots)));
  const best = ends.sort((a, b) => b.value - a.value).slice(0, POLISHED);
  // Two places often become one when neighbours move together.
  return distinct(best.map((each) => coarse.climbPairs(each)))
    .map((each) => polish(question, each))
    .reduce((a, b) => (b.value > a.value ? b : a));
}

/** One of those with the same spots. */
function distinct(found: readonly FoundStarts[]): FoundStarts[] {
  return [...new Map(found.map((each) => [each.spots.join(), each])).values()];
}

/** Goes on from starts on finer and finer grids around them. */
export function polish(question: StartQuestion, from: FoundStarts): FoundStarts {
  let here = from;
  for (const { stepFt, steps } of ZOOMS) {
    for (let repeat = 0; repeat < MOST_REPEATS; repeat += 1) {
      const before = here;
      const around = question.movers.map((position) =>
        spotsAround(
          question.limits,
          position,
          before.starts[2 * position - 2],
          before.starts[2 * position - 1],
          stepFt,
          steps,
        ),
      );
      here = new GridSearch(question, around).climb(around.map(() => 0));
      if (!reachedBorder(before.starts, here.starts, stepFt * steps)) break;
    }
  }
  return here;
}

function reachedBorder(before: Float64Array, after: Float64Array, halfSideFt: number): boolean {
  return after.some((value, k) => Math.abs(value - before[k]) > halfSideFt - 1e-6);
}

function nearest(grid: Float64Array, starts: Float64Array, position: number): number {
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let s = 0; s < grid.length / 2; s += 1) {
    const away = Math.hypot(grid[2 * s] - starts[2 * position - 2], grid[2 * s + 1] - starts[2 * position - 1]);
    if (away >= least) continue;
    least = away;
    best = s;
  }
  return best;
}
