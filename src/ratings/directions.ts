import type { SpotFacts } from '../chances/defender-chances.ts';
import { INFIELD } from '../diamond/play-codes.ts';

/** Throwing hands in code order; 0 means not recorded. */
export const HANDS = ['', 'L', 'R'] as const;

/** Ways in which a ball may lie to a man, in code order. The first two need his throwing hand to be called by their names. */
export const DIRECTIONS = ['glove side', 'backhand', 'charging in', 'coming in', 'going back', 'hand'] as const;
const [GLOVE_SIDE, BACKHAND, CHARGING_IN, COMING_IN, GOING_BACK] = DIRECTIONS.keys();

/** Direction of a row that has none: what a man does with the ball in hand. */
export const IN_HAND = DIRECTIONS.indexOf('hand');

/** What the first two are called for a man whose throwing hand is not recorded: he counts as right-handed. */
const BY_SIDE = ['to his left', 'to his right'] as const;

/** The part of a position's chances that is all of them; the others have names of directions or of classes of balls. */
export const WHOLE_PART = 'all';

/** Every name that a direction has as a part of a rating. */
export const DIRECTION_PARTS: readonly string[] = [...DIRECTIONS.slice(0, IN_HAND), ...BY_SIDE];

/** Place of a part in a list: the whole first, then directions in code order. */
export function partOrder(part: string): number {
  const direction = (DIRECTIONS as readonly string[]).indexOf(part);
  return direction >= 0 ? direction : (BY_SIDE as readonly string[]).indexOf(part);
}

/** Whether a part is a direction in which a ball of the class that a position has most of may lie: on the ground for infielders. */
export function isMainDirection(part: string, position: number): boolean {
  const isInAir = part === DIRECTIONS[COMING_IN] || part === DIRECTIONS[GOING_BACK];
  return partOrder(part) >= 0 && isInAir === position > INFIELD.length;
}

/** A grounder this slow or slower on its way to him, ft/s, has to be charged. */
const SLOW_FT_S = 55;

/**
 * Direction of a chance. On the ground: charging in when the ball is slow, else glove side or backhand by the side on which it passes
 * (a man who faces home has first base on his left); in the air: coming in or going back.
 */
export function directionOf(facts: SpotFacts, startXFt: number, startYFt: number, hand: number): number {
  if (Number.isNaN(facts.gapFt)) return facts.runInFt >= 0 ? COMING_IN : GOING_BACK;
  const along = Math.sqrt(Math.max(startXFt * startXFt + startYFt * startYFt - facts.gapFt * facts.gapFt, 0));
  if (along <= SLOW_FT_S * facts.arrivalS) return CHARGING_IN;
  return facts.gapFt > 0 === (HANDS[hand] !== 'L') ? GLOVE_SIDE : BACKHAND;
}

/** A direction in words, for a man of that throwing hand. */
export function directionName(direction: number, hand: number): string {
  if (HANDS[hand] === '' && direction < BY_SIDE.length) return BY_SIDE[direction];
  return DIRECTIONS[direction];
}
