import { BALL_KINDS } from '../../diamond/play-codes.ts';
import type { FittedModel } from '../../models/fitted-model.ts';
import { type Fitting, together } from '../../models/fitting.ts';
import type { Term } from '../../models/terms.ts';
import { chanceFit, type FitChoices } from '../fit-chance.ts';
import { type AirRows, WIDEST_SHORT_FT } from './air-rows.ts';

/**
 * h in the air: the chance that a defender gets his glove on the ball, given that nobody before him did (method.md 2). How far he is
 * short of a usual run by the time there is; where the run goes, in, back or across (which also tells how near his
 * neighbours are); the height at which the ball comes to him; its kind and how hard it was hit. For infielders how far a
 * liner has hopped. For outfielders where on the field it comes down, which stands for the wall: one surface serves all parks,
 * so a park whose fence is much nearer than the others' is not told apart.
 */
export function airReachTerms(position: number): readonly Term[] {
  const fine = position > 2;
  const terms: Term[] = [
    {
      kind: 'tensor',
      margins: [
        { covariate: 'short', lo: -60, hi: WIDEST_SHORT_FT, segments: fine ? 9 : 5 },
        { covariate: 'time', lo: 0.3, hi: 6.5, segments: fine ? 4 : 3 },
      ],
    },
    {
      kind: 'tensor',
      margins: [
        { covariate: 'across', lo: -110, hi: 110, segments: fine ? 5 : 3 },
        { covariate: 'in', lo: -110, hi: 110, segments: fine ? 5 : 3 },
      ],
    },
    { kind: 'smooth', margin: { covariate: 'height', lo: 0, hi: 9, segments: 5 } },
    { kind: 'random', covariate: 'kind', levels: BALL_KINDS.length },
    { kind: 'smooth', margin: { covariate: 'speed', lo: 50, hi: 110, segments: 5 } },
  ];
  if (position <= 6) terms.push({ kind: 'smooth', margin: { covariate: 'hop', lo: 0, hi: 60, segments: 5 } });
  if (position >= 7) {
    terms.push({
      kind: 'tensor',
      margins: [
        { covariate: 'bearing', lo: -48, hi: 48, segments: 5 },
        { covariate: 'depth', lo: 220, hi: 400, segments: 6 },
      ],
    });
  }
  return terms;
}

/** Fits reach of positions 1 to 9 (index 0 to 8). */
export function airReachFits(rows: AirRows, choices: FitChoices = {}): Fitting<FittedModel[]> {
  return together(
    rows.reach.map((data, k) => chanceFit(`air reach ${k + 1}`, airReachTerms(k + 1), () => data, choices)),
  );
}
