import type { Evidence, SkillEvidence } from './evidence.ts';
import { ManPosterior } from './man-posterior.ts';
import { CURVE_POINTS, ShiftCurve } from './shift-curve.ts';

/** How a shift changes from one season to the next by age: level + slope * (age - AGE_ORIGIN) logits a year. */
export interface AgeCurve {
  readonly level: number;
  readonly slope: number;
  /** Their standard errors. */
  readonly levelSe: number;
  readonly slopeSe: number;
  /** Pairs of seasons of one man at one position that it was fitted to. */
  readonly pairs: number;
}

export const AGE_ORIGIN = 27;
/** An age curve needs so many seasons in the book, and so many pairs. */
export const FEWEST_AGE_SEASONS = 5;
const FEWEST_PAIRS = 30;
/** What is believed of the curve before the data, as standard deviations about 0: without evidence nobody ages. */
const LEVEL_SPREAD = 0.05;
const SLOPE_SPREAD = 0.01;
/** Keeps the shift of a single season finite; wide beside what men differ by. */
const SEASON_SPREAD = 1;

/**
 * Fits the change of a man's shift between two seasons running, over all positions and classes of balls, on his age between them; each
 * pair weighs as much as its evidence. Men who are gone the next season are not seen to have aged: the curve is one of those who stay.
 * null when the book has fewer than five seasons or thirty pairs of men whose birth is known.
 * `ageAt` gives a man's age in the middle of a season, NaN when unknown.
 */
export function fitAgeCurve(
  classes: readonly SkillEvidence[],
  ageAt: (man: number, season: number) => number,
): AgeCurve | null {
  const seasons = new Set(classes.flatMap(({ league }) => league.map(({ season }) => season)));
  if (seasons.size < FEWEST_AGE_SEASONS) return null;
  // Normal equations of level and slope, the prior first.
  let [a, b, d] = [1 / LEVEL_SPREAD ** 2, 0, 1 / SLOPE_SPREAD ** 2];
  let [p, q] = [0, 0];
  let pairs = 0;
  for (const { change, variance, age } of classes.flatMap((evidence) => [...seasonChanges(evidence, ageAt)])) {
    const x = age - AGE_ORIGIN;
    a += 1 / variance;
    b += x / variance;
    d += (x * x) / variance;
    p += change / variance;
    q += (x * change) / variance;
    pairs += 1;
  }
  if (pairs < FEWEST_PAIRS) return null;
  const determinant = a * d - b * b;
  return {
    level: (d * p - b * q) / determinant,
    slope: (a * q - b * p) / determinant,
    levelSe: Math.sqrt(d / determinant),
    slopeSe: Math.sqrt(a / determinant),
    pairs,
  };
}

/** Change over `years` that end at age `age`. */
export function ageChange({ level, slope }: AgeCurve, age: number, years: number): number {
  return years * (level + slope * (age - years / 2 - AGE_ORIGIN));
}

interface SeasonChange {
  readonly change: number;
  readonly variance: number;
  /** Half way between the two seasons. */
  readonly age: number;
}

function* seasonChanges(
  { men }: SkillEvidence,
  ageAt: (man: number, season: number) => number,
): Generator<SeasonChange> {
  const seasons = new Map<
    string,
    { man: number; season: number; position: number; done: number; sums: Float64Array }
  >();
  for (const own of men) {
    const key = keyOf(own, own.season);
    let season = seasons.get(key);
    if (season === undefined) {
      season = {
        man: own.man,
        season: own.season,
        position: own.position,
        done: 0,
        sums: new Float64Array(CURVE_POINTS),
      };
      seasons.set(key, season);
    }
    season.done += own.done;
    for (let k = 0; k < CURVE_POINTS; k += 1) season.sums[k] += own.sums[k];
  }
  const posterior = new ManPosterior();
  const prior = Float64Array.of(SEASON_SPREAD ** 2);
  const shiftOf = ({ done, sums }: { done: number; sums: Float64Array }) => {
    const curve = new ShiftCurve(sums);
    posterior.fit([{ curve, done }], prior);
    const shift = posterior.shift[0];
    curve.at(shift);
    return { shift, information: curve.slope };
  };
  for (const season of seasons.values()) {
    const after = seasons.get(keyOf(season, season.season + 1));
    const age = ageAt(season.man, season.season) + 0.5;
    if (after === undefined || Number.isNaN(age)) continue;
    const [one, two] = [shiftOf(season), shiftOf(after)];
    // Both are drawn toward 0 by the wide prior, so little evidence shows as little change; its variance says so.
    if (!(one.information > 1 && two.information > 1)) continue;
    yield { change: two.shift - one.shift, variance: 1 / one.information + 1 / two.information, age };
  }
}

function keyOf({ man, position }: Pick<Evidence, 'man' | 'position'>, season: number): string {
  return `${man} ${position} ${season}`;
}
