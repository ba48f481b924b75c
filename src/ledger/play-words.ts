import type { DefenderView } from './view-defenders.ts';

/** Words for one play, for everything that tells plays: the command line, the pages, the cards. */

/** Scorekeeper's names of the positions 1 to 9; index 0 is unused. */
export const POSITION_NAMES = [
  '',
  'pitcher',
  'catcher',
  'first base',
  'second base',
  'third base',
  'shortstop',
  'left field',
  'centre field',
  'right field',
] as const;

export const OUTS_WORDS = ['nobody out', 'one out', 'two out'] as const;

/** Words for a bearing on the infield, up to the bearing named; bounds are ours, after how the game is spoken of. */
const BEARING_WORDS: readonly (readonly [number, string])[] = [
  [-40, 'down the third-base line'],
  [-30, 'toward third'],
  [-20, 'in the hole between third and short'],
  [-8, 'toward short'],
  [8, 'up the middle'],
  [20, 'toward second'],
  [30, 'in the hole between first and second'],
  [40, 'toward first'],
  [180, 'down the first-base line'],
];

/** The same on the outfield grass. */
const OUTFIELD_WORDS: readonly (readonly [number, string])[] = [
  [-40, 'down the left-field line'],
  [-18, 'to left'],
  [-9, 'to left centre'],
  [9, 'to centre'],
  [18, 'to right centre'],
  [40, 'to right'],
  [180, 'down the right-field line'],
];

/** How far from home a ball must come down to be told by the outfielders, feet. */
const OUTFIELD_FROM_FT = 170;

/** Where a grounder was hit to; undefined without a bearing. */
export function bearingWords(bearingDeg: number): string | undefined {
  return BEARING_WORDS.find(([bound]) => bearingDeg <= bound)?.[1];
}

/**
 * Where a ball was hit to; undefined without a bearing. `landingFt` is how far from home it came down: a ball in the air is told by
 * the outfielders when that is far, and has no hole to go through when it is not.
 */
export function whereWords(ballKind: string, bearingDeg: number, landingFt: number): string | undefined {
  if (ballKind === 'ground') return bearingWords(bearingDeg);
  if (landingFt >= OUTFIELD_FROM_FT) return OUTFIELD_WORDS.find(([bound]) => bearingDeg <= bound)?.[1];
  return bearingWords(bearingDeg)?.replace('in the hole between', 'between');
}

export function runnersWords(bases: number): string {
  const names = ['first', 'second', 'third'].filter((_, k) => (bases >> k) & 1);
  return names.length === 0 ? 'nobody on' : `on base: ${names.join(', ')}`;
}

const feet = (value: number) => `${value.toFixed(0)} ft`;

/** How the ball came to a man: past him on the ground, or how far he had to run to it in the air. */
export function wayToBallWords(view: Pick<DefenderView, 'gapFt' | 'runInFt' | 'runAcrossFt'>): string {
  return Number.isNaN(view.gapFt) ? runWords(view) : gapWords(view);
}

function runWords({ runInFt, runAcrossFt }: Pick<DefenderView, 'runInFt' | 'runAcrossFt'>): string {
  const run = Math.hypot(runInFt, runAcrossFt);
  if (run < 3) return 'straight at him';
  if (Math.abs(runAcrossFt) > 2 * Math.abs(runInFt)) return `${feet(run)} to his ${runAcrossFt > 0 ? 'left' : 'right'}`;
  return `${feet(run)} ${runInFt > 0 ? 'in' : 'back'}`;
}

/** A man who faces home has first base on his left. */
function gapWords({ gapFt }: Pick<DefenderView, 'gapFt'>): string {
  if (Math.abs(gapFt) < 1) return 'straight at him';
  return `${feet(Math.abs(gapFt))} to his ${gapFt > 0 ? 'left' : 'right'}`;
}

/** How he stood against the even spot; empty for who does not move. */
export function againstEvenWords({
  startXFt,
  startYFt,
  evenXFt,
  evenYFt,
}: Pick<DefenderView, 'startXFt' | 'startYFt' | 'evenXFt' | 'evenYFt'>): string {
  if (Number.isNaN(evenXFt)) return '';
  const across = startXFt - evenXFt;
  const deeper = Math.hypot(startXFt, startYFt) - Math.hypot(evenXFt, evenYFt);
  const side = `${feet(Math.abs(across))} toward ${across > 0 ? 'first' : 'third'}`;
  return `${side}, ${feet(Math.abs(deeper))} ${deeper > 0 ? 'deeper' : 'shallower'}`;
}
