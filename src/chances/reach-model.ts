import { SURFACES } from '../diamond/play-codes.ts';
import type { FittedModel } from '../models/fitted-model.ts';
import { type Fitting, together } from '../models/fitting.ts';
import type { Margin, Term } from '../models/terms.ts';
import { WIDEST_GAP_FT } from './chance-order.ts';
import { collectChanceRows, promiseData, reachData } from './chance-rows.ts';
import { chanceFit, type FitChoices } from './fit-chance.ts';
import type { Grounders } from './grounders.ts';
import type { TravelModel } from './travel-time.ts';

const gapMargin = (widestFt: number, segments: number) => ({ covariate: 'gap', lo: -widestFt, hi: widestFt, segments });
const arrivalMargin = (segments: number) => ({ covariate: 'arrival', lo: 0.3, hi: 4.3, segments });

/**
 * Where the surface of reach is drawn (docs/decisions/010-choice-of-terms.md). A pitcher has no time to run: what he gathers
 * passes within a few feet, and there the surface must be fine. The catcher gathers little, so a coarse one is enough.
 */
function groundMargins(position: number): readonly Margin[] {
  if (position === 1) return [gapMargin(30, 15), arrivalMargin(8)];
  if (position === 2) return [gapMargin(WIDEST_GAP_FT, 8), arrivalMargin(4)];
  return [gapMargin(WIDEST_GAP_FT, 15), arrivalMargin(8)];
}

/** h: the chance that a defender gathers, given that nobody before him did (method.md 2). */
export function reachTerms(position: number): readonly Term[] {
  return [
    { kind: 'tensor', margins: groundMargins(position) },
    {
      kind: 'tensor',
      margins: [
        { covariate: 'speed', lo: 20, hi: 120, segments: 6 },
        { covariate: 'launch', lo: -60, hi: 20, segments: 5 },
      ],
    },
    { kind: 'random', covariate: 'surface', levels: SURFACES.length },
  ];
}

/**
 * c: the chance of an out if a given defender will gather, known before he does (method.md 3). The throw that awaits him is a
 * term of its own: a man may come to a ball with ease and still be far from first, as in an overshift.
 */
export const PROMISE_TERMS: readonly Term[] = [
  { kind: 'tensor', margins: [gapMargin(WIDEST_GAP_FT, 10), arrivalMargin(6)] },
  { kind: 'smooth', margin: { covariate: 'spare', lo: -0.5, hi: 3.5, segments: 12 } },
  { kind: 'random', covariate: 'state', levels: 24 },
];

/** Surfaces of one position; `reach` and `promise` are on the logit scale. */
export interface PositionChances {
  readonly reach: FittedModel;
  readonly promise: FittedModel;
}

/**
 * Fits reach and promise for positions 1 to 6 (index 0 to 5). Rows of reach: each defender up to the one who gathered,
 * or up to the one who touched the ball and lost it; those after him are censored and give no row.
 */
export function* positionFits(
  grounders: Grounders,
  travel: TravelModel,
  choices: FitChoices = {},
): Fitting<PositionChances[]> {
  const all = collectChanceRows(grounders, travel);
  const fits = yield* together(
    all.flatMap((rows, k) => [
      chanceFit(`reach ${k + 1}`, reachTerms(k + 1), () => reachData(rows), choices),
      chanceFit(`promise ${k + 1}`, PROMISE_TERMS, () => promiseData(rows, grounders), choices),
    ]),
  );
  return all.map((_, k) => ({ reach: fits[2 * k], promise: fits[2 * k + 1] }));
}
