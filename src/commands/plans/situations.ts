import { parseRunners } from '../../plans/plan-types.ts';

/** What a pitch finds: outs, 0 to 2, and occupied bases as bits. */
export interface Situation {
  readonly outs: number;
  readonly bases: number;
}

/**
 * What a club plans for when it is not told otherwise: the bases empty, a man to hold, a man to turn two on, a man who can score on a
 * single, and a man on third. Common practice, no source.
 */
export const USUAL_SITUATIONS = '0:---,0:1--,1:1--,2:1--,1:-2-,1:12-,1:--3,1:1-3';

/** "0:---", "1:1-3" or "2:none". */
function parseSituation(text: string): Situation | null {
  const [outs, runners, ...rest] = text.trim().split(':');
  const bases = parseRunners(runners ?? '');
  if (rest.length > 0 || !/^[012]$/.test(outs!) || bases === null) return null;
  return { outs: Number(outs), bases };
}

/** Reads "0:---,1:1-3", or "every" for all twenty-four; null when a part of it is none. */
export function parseSituations(text: string): Situation[] | null {
  if (text === 'every') return [0, 1, 2].flatMap((outs) => [...Array(8).keys()].map((bases) => ({ outs, bases })));
  const situations = text.split(',').map(parseSituation);
  return situations.every((each) => each !== null) ? situations : null;
}
