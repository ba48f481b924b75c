import type { Random } from '../../numeric/random.ts';

/** Usual skills by position (index 1 to 9), in the order of SKILL_NAMES: first step, top speed, glove, hands, arm, release. */
const USUAL: readonly (readonly number[])[] = [
  [],
  [0.3, 25, 0, -0.1, 76, 0.95],
  [0.3, 24.5, 0, -0.1, 79, 0.92],
  [0.26, 25.6, 0.1, 0, 72, 0.97],
  [0.245, 26.8, 0, 0.1, 75, 0.92],
  [0.24, 26, 0, 0, 81, 0.92],
  [0.24, 27.2, 0, 0.15, 80, 0.9],
  [0.3, 27.2, 0, 0.1, 83, 0.85],
  [0.28, 28.4, 0, 0.2, 84, 0.85],
  [0.3, 27.4, 0, 0.1, 87, 0.85],
];

/** Standard deviations of the same between men of one position. */
const SPREAD: readonly number[] = [0.064, 1.75, 0.95, 0.45, 4, 0.09];
/** A pitcher off balance hardly uses his arm's length, so theirs differ less. */
const PITCHER_GLOVE_SHARE = 0.3;
/** A fast man is usually quick on his feet too. */
const QUICK_WITH_FAST = 0.35;

/** Skills of one man brought up at a position, then 1 or 0 for a left-handed thrower (physics/men.ts). */
export function drawSkills(position: number, throwsLeft: boolean, random: Random): Float64Array {
  const usual = USUAL[position]!;
  const skills = new Float64Array(7);
  const speed = random.normal();
  const other = Math.sqrt(1 - QUICK_WITH_FAST * QUICK_WITH_FAST);
  for (let k = 0; k < 6; k += 1) {
    let z = k === 1 ? speed : random.normal();
    if (k === 0) z = other * z - QUICK_WITH_FAST * speed;
    const spread = SPREAD[k]! * (k === 2 && position === 1 ? PITCHER_GLOVE_SHARE : 1);
    skills[k] = usual[k]! + spread * Math.max(-2.6, Math.min(2.6, z));
  }
  skills[6] = throwsLeft ? 1 : 0;
  return skills;
}

/** How far a man's top speed is from the usual of his position, in standard deviations. */
export function speedScore(position: number, skills: Float64Array): number {
  return (skills[1]! - USUAL[position]![1]!) / SPREAD[1]!;
}
