import type { Random } from '../../numeric/random.ts';

/** How a club places its defenders. */
export const PLACEMENT_HABITS = ['shading well', 'straight-up', 'overshifting', 'shading badly'] as const;
export type PlacementHabitName = (typeof PLACEMENT_HABITS)[number];

export interface PlacementHabit {
  readonly name: PlacementHabitName;
  /** The club's own leaning by position 1 to 9: degrees of bearing, feet of depth. */
  readonly leanDeg: Float64Array;
  readonly leanFt: Float64Array;
  /** Seeds what a badly shading club believes about each batter. */
  readonly belief: Random;
}

const LEAN_DEG = 1.1;
const LEAN_FT = 3;

/** Habits go round the clubs, so that every league of four clubs or more has them all. */
export function drawPlacementHabit(club: number, random: Random): PlacementHabit {
  const leanDeg = new Float64Array(10);
  const leanFt = new Float64Array(10);
  for (let p = 3; p <= 9; p += 1) {
    leanDeg[p] = LEAN_DEG * random.normal();
    leanFt[p] = LEAN_FT * random.normal();
  }
  return {
    name: PLACEMENT_HABITS[club % PLACEMENT_HABITS.length]!,
    leanDeg,
    leanFt,
    belief: random.fork(`belief-${club}`),
  };
}
