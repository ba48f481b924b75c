import type { Spread } from './man-spread.ts';
import type { SurplusLink } from './surplus-link.ts';

/** How much men differ, at one facet. */
export interface FacetSpread {
  /** Between men. */
  readonly man: Spread;
  /** Of a man's directions about his own shift; null where the evidence does not carry them apart. */
  readonly direction: Spread | null;
  /** What the likelihood says of the directions, whether carried or not. */
  readonly directionTried: Spread;
  /** How a man's surplus goes with his shift; null where there is no surplus. */
  readonly surplus: SurplusLink | null;
}
