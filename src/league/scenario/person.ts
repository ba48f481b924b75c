import type { Random } from '../../numeric/random.ts';
import { type BatterHabit, drawBatterHabit } from './batter-habit.ts';
import { drawSkills, speedScore } from './draw-skills.ts';
import { inventName } from './invent-name.ts';

/** One invented person; `index` is his place in the league's list of people. */
export interface Person {
  readonly index: number;
  readonly id: string;
  readonly name: string;
  readonly batsLeft: boolean;
  readonly throwsLeft: boolean;
  readonly born: string;
  /** Position he was brought up at. */
  readonly position: number;
  readonly homeToFirstS: number;
  readonly skills: Float64Array;
  readonly habit: BatterHabit;
}

/** Means and spread of home-to-first times: Coleman & Dupler 2005. */
const HOME_TO_FIRST_LEFT_S = 4.31;
const HOME_TO_FIRST_RIGHT_S = 4.35;
const HOME_TO_FIRST_SPREAD_S = 0.16;
/** Correlation of that time with a man's speed in the field. */
const RUNS_AS_HE_FIELDS = 0.7;
/** Left-handed throwers play first base, the outfield, and pitch. */
const LEFT_THROWERS: readonly number[] = [0, 0.28, 0, 0.3, 0, 0, 0, 0.22, 0.22, 0.22];
const LEFT_BATTERS: readonly number[] = [0, 0.35, 0.3, 0.45, 0.4, 0.36, 0.33, 0.42, 0.45, 0.44];

export function inventPerson(people: Person[], position: number, season: number, random: Random): Person {
  const throwsLeft = random.next() < LEFT_THROWERS[position]!;
  const batsLeft = throwsLeft ? random.next() < 0.8 : random.next() < LEFT_BATTERS[position]!;
  const skills = drawSkills(position, throwsLeft, random);
  const rest = Math.sqrt(1 - RUNS_AS_HE_FIELDS * RUNS_AS_HE_FIELDS);
  const slow = -RUNS_AS_HE_FIELDS * speedScore(position, skills) + rest * random.normal();
  const mean = batsLeft ? HOME_TO_FIRST_LEFT_S : HOME_TO_FIRST_RIGHT_S;
  const person: Person = {
    index: people.length,
    id: `p${String(people.length + 1).padStart(4, '0')}`,
    name: inventName(random),
    batsLeft,
    throwsLeft,
    born: `${season - 20 - random.integer(14)}-${two(1 + random.integer(12))}-${two(1 + random.integer(28))}`,
    position,
    homeToFirstS: Math.round((mean + HOME_TO_FIRST_SPREAD_S * slow) * 100) / 100,
    skills,
    habit: drawBatterHabit(random),
  };
  people.push(person);
  return person;
}

function two(value: number): string {
  return String(value).padStart(2, '0');
}
