import { fisherInterval, pearson, spearmanBrown } from '../numeric/correlation.ts';
import { type ManSeason, MEASURED_KINDS } from './man-seasons.ts';

export const RELIABILITY_METHODS = ['split_half', 'year_to_year'] as const;

/** How well a kind at a position repeats itself among those with so many chances or more. */
export interface Reliability {
  readonly kind: (typeof MEASURED_KINDS)[number];
  readonly position: number;
  readonly method: (typeof RELIABILITY_METHODS)[number];
  readonly minChances: number;
  /** Pairs: seasons cut in halves, or two seasons running. */
  readonly n: number;
  /** Different men among them: what the interval is made of, since a man's pairs are no independent witnesses. */
  readonly men: number;
  readonly r: number;
  readonly lo95: number;
  readonly hi95: number;
  /** Of a whole season, from its halves; NaN from year to year. */
  readonly spearmanBrown: number;
}

/** Least chances a season, from lenient to strict. */
const SWEEP = [10, 25, 50, 75, 100, 150, 200, 250, 300, 400, 500, 600] as const;
/** With fewer men no correlation is reported. */
export const FEWEST_MEN = 5;

interface Pair {
  readonly fielder: number;
  readonly chances: number;
  /** Rates of the two sides by kind. */
  readonly one: readonly number[];
  readonly two: readonly number[];
}

/**
 * Reliability of the rates a chance by kind and position over a sweep of least chances (method.md 11): odd against even
 * games of a season with Spearman-Brown, and one season against the next, where the smaller number of chances counts.
 */
export function measureReliability(seasons: readonly ManSeason[]): Reliability[] {
  const out: Reliability[] = [];
  const positions = [...new Set(seasons.map(({ position }) => position))].sort((a, b) => a - b);
  for (const position of positions) {
    const own = seasons.filter((season) => season.position === position);
    const pairsBy = { split_half: own.flatMap(splitInHalves), year_to_year: pairYears(own) };
    for (const [k, kind] of MEASURED_KINDS.entries()) {
      for (const method of RELIABILITY_METHODS) {
        let before = 0;
        for (const minChances of SWEEP) {
          const pairs = pairsBy[method].filter(({ chances }) => chances >= minChances);
          // A stricter rule that shuts nobody out says nothing new.
          if (pairs.length === before) continue;
          before = pairs.length;
          const men = new Set(pairs.map(({ fielder }) => fielder)).size;
          if (men < FEWEST_MEN) break;
          const r = pearson(
            pairs.map(({ one }) => one[k]),
            pairs.map(({ two }) => two[k]),
          );
          if (Number.isNaN(r)) continue;
          out.push({
            kind,
            position,
            method,
            minChances,
            n: pairs.length,
            men,
            r,
            ...fisherInterval(r, men),
            spearmanBrown: method === 'split_half' ? spearmanBrown(r) : Number.NaN,
          });
        }
      }
    }
  }
  return out;
}

/** Rates over the first, third, fifth game and so on, and over the others; none when one side had no chance. */
function splitInHalves({ fielder, chances, gameChances, gameOuts }: ManSeason): Pair[] {
  const side = (first: number, column: Float64Array) => {
    let sum = 0;
    for (let g = first; g < column.length; g += 2) sum += column[g];
    return sum;
  };
  const exposures = [side(0, gameChances), side(1, gameChances)];
  if (!exposures.every((exposure) => exposure > 0)) return [];
  const rates = (first: number) => gameOuts.map((outs) => side(first, outs) / exposures[first]);
  return [{ fielder, chances, one: rates(0), two: rates(1) }];
}

function pairYears(seasons: readonly ManSeason[]): Pair[] {
  const byMan = new Map(seasons.map((season) => [`${season.fielder} ${season.season}`, season]));
  const rates = ({ gameOuts, chances }: ManSeason) =>
    gameOuts.map((outs) => outs.reduce((sum, value) => sum + value, 0) / chances);
  return seasons.flatMap((first) => {
    const next = byMan.get(`${first.fielder} ${first.season + 1}`);
    if (next === undefined || first.chances <= 0 || next.chances <= 0) return [];
    const chances = Math.min(first.chances, next.chances);
    return [{ fielder: first.fielder, chances, one: rates(first), two: rates(next) }];
  });
}
