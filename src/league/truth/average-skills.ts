import { SKILL_STRIDE } from '../physics/men.ts';
import type { FieldTimeColumns } from '../season/field-time.ts';

/** Skills of the average man of each position, weighted by outs played; row 0 is unused. */
export function averageSkills(skills: Float64Array, time: FieldTimeColumns): Float64Array {
  const sums = new Float64Array(10 * SKILL_STRIDE);
  const weights = new Float64Array(10);
  for (let row = 0; row < time.position.length; row += 1) {
    const p = time.position[row]!;
    const outs = time.outsPlayed[row]!;
    weights[p]! += outs;
    for (let k = 0; k < SKILL_STRIDE; k += 1)
      sums[p * SKILL_STRIDE + k]! += outs * skills[time.fielder[row]! * SKILL_STRIDE + k]!;
  }
  for (let p = 1; p <= 9; p += 1) {
    for (let k = 0; k < SKILL_STRIDE; k += 1) sums[p * SKILL_STRIDE + k]! /= weights[p] || 1;
    // A glove is on one hand or the other: the average man throws with the right.
    sums[p * SKILL_STRIDE + SKILL_STRIDE - 1] = 0;
  }
  return sums;
}
