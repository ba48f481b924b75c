import { chiSquareQuantile } from '../numeric/chi-square.ts';
import { groupSums, type VarianceComponents, varianceComponents } from '../numeric/variance-components.ts';
import { type ManSeason, MEASURED_KINDS } from './man-seasons.ts';
import { FEWEST_MEN } from './reliability.ts';

/** After how many chances a rate is half signal. */
export interface HalfSignal {
  readonly kind: (typeof MEASURED_KINDS)[number];
  readonly position: number;
  /** Seasons of men, and different men. */
  readonly n: number;
  readonly men: number;
  /** Standard deviation of men's own rates, outs per 100 chances; 0 when no signal was found. */
  readonly signalSd: number;
  /** Standard deviation that chance gives a rate over 100 chances. */
  readonly noiseSdAt100: number;
  /** noise / signal variance; Infinity when no signal was found. */
  readonly chances: number;
  /** 95 % interval; Infinity where no signal cannot be ruled out. */
  readonly lo95: number;
  readonly hi95: number;
}

/** Seasons with fewer chances say next to nothing about a man's rate. */
const FEWEST_CHANCES = 10;

/**
 * The rate of a man with C chances varies from man to man by signal, and by noise / C: its reliability is
 * C / (C + noise / signal), one half at C = noise / signal (method.md 11).
 */
export function findHalfSignal(seasons: readonly ManSeason[]): HalfSignal[] {
  const out: HalfSignal[] = [];
  for (let position = 1; position <= 9; position += 1) {
    const own = seasons.filter((season) => season.position === position && season.chances >= FEWEST_CHANCES);
    const men = new Set(own.map(({ fielder }) => fielder)).size;
    if (men < FEWEST_MEN) continue;
    for (const [k, kind] of MEASURED_KINDS.entries()) {
      const components = varianceComponents(
        own.map(({ gameOuts, gameChances }) => groupSums(gameOuts[k], gameChances)),
      );
      const { signal, noise } = components;
      if (!(noise > 0)) continue;
      out.push({
        kind,
        position,
        n: own.length,
        men,
        signalSd: 100 * Math.sqrt(signal),
        noiseSdAt100: 10 * Math.sqrt(noise),
        chances: noise / signal,
        ...intervalOf(components, men),
      });
    }
  }
  return out;
}

/**
 * The textbook's interval of a ratio of variance components in equal groups (Searle, Casella & McCulloch 1992), with as many
 * groups as men, since seasons of one man are no independent witnesses, and the noise, which rests on thousands of games, taken as known.
 */
function intervalOf({ varianceRatio, size }: VarianceComponents, men: number): { lo95: number; hi95: number } {
  const chancesAt = (p: number) => {
    const least = (varianceRatio * (men - 1)) / chiSquareQuantile(p, men - 1) - 1;
    return least > 0 ? size / least : Number.POSITIVE_INFINITY;
  };
  return { lo95: chancesAt(0.025), hi95: chancesAt(0.975) };
}
