import { startOffset } from './alignment-sides.ts';
import { secondBagHalfWidthFt } from './bags.ts';
import { INFIELD_BOUNDARY, type InfieldBoundary, outsideArcFt } from './infield-boundary.ts';
import { MOVABLE_INFIELD } from './play-codes.ts';

/** First season of the placement rule (press, 2023). */
export const TWO_A_SIDE_SEASON = 2023;

/**
 * How the placement rule is measured (Official Baseball Rules 5.02(c) since 2023; its wording from memory): four infielders
 * with both feet inside the outer boundary of the infield, two of them wholly on each side of second base.
 */
export interface TwoASideReading {
  readonly boundary: InfieldBoundary;
  /** From the recorded start to the outside of either shoe, feet. A man stands square to home, his feet side by side. */
  readonly stanceHalfWidthFt: number;
  /** How far both feet must be from the line from home through the middle of second base, feet. */
  readonly clearOfLineFt: number;
}

/** The line through the middle of the bag parts the sides; a ready stance is a yard from shoe to shoe (our setting). */
export const TWO_A_SIDE: TwoASideReading = {
  boundary: INFIELD_BOUNDARY,
  stanceHalfWidthFt: 1.5,
  clearOfLineFt: 0,
};

/** The stricter reading: wholly beside the bag itself. */
export const TWO_A_SIDE_CLEAR_OF_BAG: TwoASideReading = {
  ...TWO_A_SIDE,
  clearOfLineFt: secondBagHalfWidthFt(TWO_A_SIDE_SEASON),
};

export interface Legality {
  /** null when it cannot be judged. */
  readonly legal: boolean | null;
  readonly reason: string;
}

const LEGAL: Legality = {
  legal: true,
  reason: 'four infielders inside the outer boundary of the infield, two on each side of second base',
};

const WHO: Record<(typeof MOVABLE_INFIELD)[number], string> = {
  3: 'the first baseman',
  4: 'the second baseman',
  5: 'the third baseman',
  6: 'the shortstop',
};

/**
 * Whether one play's starts obey the two-a-side rule, and why not; of several men outside, the one farthest out is named.
 * One pitch cannot show whether sides were switched within an inning.
 * @param starts six (x, y) pairs a play for positions 1 to 6, feet; `at` is the play's index.
 */
export function legalTwoASide(starts: Float64Array, at: number, reading: TwoASideReading = TWO_A_SIDE): Legality {
  let right = 0;
  let left = 0;
  let astride: string | undefined;
  let outside: string | undefined;
  let farthestFt = 0;
  for (const position of MOVABLE_INFIELD) {
    const offset = startOffset(at, position);
    const x = starts[offset];
    const y = starts[offset + 1];
    if (!Number.isFinite(x) || !Number.isFinite(y)) {
      return { legal: null, reason: `the start of ${WHO[position]} was not seen` };
    }
    const distance = Math.hypot(x, y);
    // On home plate itself every way is square to home; any will do.
    const acrossX = distance > 0 ? (reading.stanceHalfWidthFt * y) / distance : reading.stanceHalfWidthFt;
    const acrossY = distance > 0 ? (reading.stanceHalfWidthFt * x) / distance : 0;
    const outFt = Math.max(
      outsideArcFt(x + acrossX, y - acrossY, reading.boundary),
      outsideArcFt(x - acrossX, y + acrossY, reading.boundary),
    );
    if (outFt > farthestFt) {
      farthestFt = outFt;
      outside = WHO[position];
    }
    const nearFootFt = Math.abs(x) - Math.abs(acrossX);
    if (nearFootFt < reading.clearOfLineFt || x === 0) astride ??= WHO[position];
    else if (x > 0) right += 1;
    else left += 1;
  }
  const faults: string[] = [];
  if (right > 2 || left > 2) {
    faults.push(`two infielders must stand on each side of second base: ${left} stand left of it, ${right} right`);
  } else if (astride !== undefined) {
    faults.push(`${astride} is not wholly on one side of second base: ${left} stand left of it, ${right} right`);
  }
  if (outside !== undefined) {
    faults.push(`${outside} has a foot ${farthestFt.toFixed(1)} ft outside the outer boundary of the infield`);
  }
  return faults.length === 0 ? LEGAL : { legal: false, reason: faults.join('; ') };
}
