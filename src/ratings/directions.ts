import type { SpotFacts } from '../chances/defender-chances.ts';

/** Throwing hands in code order; 0 means not recorded. */
export const HANDS = ['', 'L', 'R'] as const;

/** Ways in which a ball may lie to a man, in code order. The first two need his throwing hand to be called by their names. */
export const DIRECTIONS = ['glove side', 'backhand', 'charging in', 'coming in', 'going back', 'hand'] as const;
const [GLOVE_SIDE, BACKHAND, CHARGING_IN, COMING_IN, GOING_BACK] = DIRECTIONS.keys();

/** Direction of a row that has none: what a man does with the ball in hand. */
export const IN_HAND = DIRECTIONS.indexOf('hand');

/** What the first two are called for a man whose throwing hand is not recorded: he counts as right-handed. */
const BY_SIDE = ['to his left', 'to his right'] as const;

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
