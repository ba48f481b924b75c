import { ExpectedFailure } from '../expected-failure.ts';
import { createRandom, type Random } from '../numeric/random.ts';
import { type Progress, SILENT } from '../progress.ts';
import type { DemoLeague, LeagueOptions, PeopleColumns } from './demo-league.ts';
import { type Club, foundClub } from './scenario/club.ts';
import type { Person } from './scenario/person.ts';
import { TOWNS } from './scenario/towns.ts';
import { winter } from './scenario/winter.ts';
import { FieldTime } from './season/field-time.ts';
import { playSeason } from './season/play-season.ts';
import { Recorder } from './season/recorder.ts';
import { makeHoles } from './tables/make-holes.ts';
import { averageSkills } from './truth/average-skills.ts';
import { type LeagueTruth, trimColumns } from './truth/league-truth.ts';
import { measureLevels } from './truth/measure-levels.ts';

const BALLS_PER_SEASON = 25_000;
const FIRST_YEAR = 2031;
/** Seasons in which three infielders may stand on one side of second base. */
const SEASONS_WITHOUT_RULE = 2;
/** More balls than one game can hold. */
const GAME_ROOM = 400;

/**
 * Computes the demo league: invented clubs and people, seasons of games ball by ball, tables with holes in canonical
 * order, and the truth beside them. Same options, same league.
 * @throws ExpectedFailure (usage) when seasons, teams or balls are out of range.
 */
export function simulateLeague(options: LeagueOptions, progress: Progress = SILENT): DemoLeague {
  const { seasons, teams, seed } = options;
  const balls = options.ballsPerSeason ?? BALLS_PER_SEASON;
  const firstYear = options.firstYear ?? FIRST_YEAR;
  const twoASideFrom = options.twoASideFrom ?? firstYear + SEASONS_WITHOUT_RULE;
  checkWhole('seasons', seasons, 1, 50);
  checkWhole('teams', teams, 2, TOWNS.length);
  checkWhole('ballsPerSeason', balls, 1, 1_000_000);
  const random = createRandom(seed);
  const people: Person[] = [];
  const clubs = Array.from({ length: teams }, (_, k) => foundClub(k, people, firstYear, random.fork(`club-${k}`)));
  const recorder = new Recorder(seasons * (balls + GAME_ROOM));
  const fieldTime = new FieldTime();
  for (let k = 0; k < seasons; k += 1) {
    const season = firstYear + k;
    if (k > 0) winter(clubs, people, season, random.fork(`winter-${season}`));
    playSeason(
      clubs,
      season,
      season >= twoASideFrom,
      balls,
      recorder,
      fieldTime,
      random.fork(`season-${season}`),
      progress,
    );
  }
  return finishLeague(recorder, fieldTime, clubs, people, seed, random, progress);
}

function finishLeague(
  recorder: Recorder,
  fieldTime: FieldTime,
  clubs: readonly Club[],
  people: readonly Person[],
  seed: number,
  random: Random,
  progress: Progress,
): DemoLeague {
  const { count, capacity } = recorder;
  makeHoles(recorder.plays, count, random.fork('holes'));
  const plays = trimColumns(recorder.plays, count, capacity);
  plays.count = count;
  plays.games = recorder.plays.games;
  plays.teams = clubs.map(({ name }) => name);
  plays.parks = clubs.map(({ park }) => park);
  plays.people = people.map(({ id }) => id);
  const skills = Float64Array.from(people.flatMap((person) => [...person.skills]));
  const time = fieldTime.columns();
  const truth: Omit<LeagueTruth, 'levels'> = {
    seed,
    personIds: plays.people,
    skills,
    averageSkills: averageSkills(skills, time),
    homeToFirstS: Float64Array.from(people, ({ homeToFirstS }) => homeToFirstS),
    batsLeft: Uint8Array.from(people, ({ batsLeft }) => (batsLeft ? 1 : 0)),
    habits: clubs.map(({ name, habit }) => ({ team: name, habit: habit.name })),
    balls: trimColumns(recorder.balls, count, capacity),
  };
  const levels = measureLevels(truth, time, random.fork('levels'), progress);
  return { plays, people: peopleColumns(people), fieldTime: time, truth: { ...truth, levels } };
}

function peopleColumns(people: readonly Person[]): PeopleColumns {
  return {
    personId: people.map(({ id }) => id),
    name: people.map(({ name }) => name),
    bats: people.map(({ batsLeft }) => (batsLeft ? 'L' : 'R')),
    throws: people.map(({ throwsLeft }) => (throwsLeft ? 'L' : 'R')),
    homeToFirstS: Float64Array.from(people, ({ homeToFirstS }) => homeToFirstS),
    born: people.map(({ born }) => born),
  };
}

function checkWhole(name: string, value: number, least: number, most: number): void {
  if (Number.isInteger(value) && value >= least && value <= most) return;
  throw new ExpectedFailure(
    'usage',
    `${name} must be a whole number from ${least} to ${most}, got ${value}`,
    `Give ${name} between ${least} and ${most}.`,
  );
}
