/** How much is known of a play, best first (method.md 9); the code is the index. */
export const GRADES = ['full', 'ground', 'whole'] as const;
export type Grade = (typeof GRADES)[number];
export const FULL = 0;
export const GROUND = 1;
export const WHOLE = 2;

/** Things worth knowing about a play's numbers, as bits in the order of this list. */
export const FLAGS = [
  'no_bearing',
  'no_speed',
  'no_launch_angle',
  'no_starts',
  'no_gather_time',
  'no_gather_place',
  'runner_time_from_side_mean',
  'few_like_balls',
  'own_clubs_placements',
  'later_placements',
  'no_flight',
] as const;
export type Flag = (typeof FLAGS)[number];

export function flagBit(flag: Flag): number {
  return 1 << FLAGS.indexOf(flag);
}

/** The flags of a bit set as text, names joined by a space. */
export function flagText(bits: number): string {
  return FLAGS.filter((_, k) => (bits >> k) & 1).join(' ');
}
