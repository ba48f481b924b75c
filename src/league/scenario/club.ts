import { SURFACES } from '../../diamond/play-codes.ts';
import type { Random } from '../../numeric/random.ts';
import { inventPerson, type Person } from './person.ts';
import { drawPlacementHabit, type PlacementHabit } from './placement-habit.ts';
import { TOWNS } from './towns.ts';

export interface Club {
  readonly index: number;
  readonly name: string;
  readonly park: string;
  /** Code of SURFACES. */
  readonly surface: number;
  readonly habit: PlacementHabit;
  /** Everybody but pitchers: eight regulars (positions 2 to 9 in order), then the bench in the order of BENCH. */
  readonly hitters: Person[];
  readonly starters: Person[];
  readonly relievers: Person[];
}

/** Where each man of the bench was brought up, and the positions he fills in at. */
export const BENCH: readonly { readonly at: number; readonly covers: readonly number[] }[] = [
  { at: 2, covers: [2] },
  { at: 6, covers: [6, 4, 5] },
  { at: 4, covers: [4, 5, 3, 6] },
  { at: 8, covers: [8, 7, 9] },
  { at: 9, covers: [9, 7, 3] },
  { at: 3, covers: [3] },
];

const STARTERS = 5;
const RELIEVERS = 4;
const TURF_EVERY = 3;

export function foundClub(index: number, people: Person[], season: number, random: Random): Club {
  const recruit = (position: number) => inventPerson(people, position, season, random);
  return {
    index,
    name: TOWNS[index]!,
    park: `${TOWNS[index]} Green`,
    surface: SURFACES.indexOf(index % TURF_EVERY === 2 ? 'turf' : 'grass'),
    habit: drawPlacementHabit(index, random),
    hitters: [...[2, 3, 4, 5, 6, 7, 8, 9].map(recruit), ...BENCH.map(({ at }) => recruit(at))],
    starters: Array.from({ length: STARTERS }, () => recruit(1)),
    relievers: Array.from({ length: RELIEVERS }, () => recruit(1)),
  };
}
