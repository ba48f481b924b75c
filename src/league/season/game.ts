import type { Random } from '../../numeric/random.ts';
import type { Club } from '../scenario/club.ts';
import { drawLineup, type Lineup } from '../scenario/lineup.ts';
import type { Person } from '../scenario/person.ts';
import type { FieldTime } from './field-time.ts';
import { playHalfInning, type Sides } from './half-inning.ts';
import type { PlayContext, Recorder } from './recorder.ts';

const INNINGS = 9;
/** A game level after this inning is a draw. */
const LAST_INNING = 12;

interface Team {
  readonly club: Club;
  readonly lineup: Lineup;
  readonly pitchers: readonly Person[];
  next: number;
  runs: number;
}

/** Who pitches in each inning: the starter five to seven, then one reliever after the other. */
function drawPitchers(club: Club, day: number, random: Random): Person[] {
  const starterInnings = 5 + random.integer(3);
  const first = random.integer(club.relievers.length);
  return Array.from({ length: LAST_INNING + 1 }, (_, inning) => {
    if (inning <= starterInnings) return club.starters[day % club.starters.length]!;
    return club.relievers[(first + inning) % club.relievers.length]!;
  });
}

/** Plays one game; plays are numbered from 1 within it. */
export function playGame(
  home: Club,
  away: Club,
  base: Omit<PlayContext, 'inning' | 'batting' | 'fielding'>,
  dayNumber: number,
  recorder: Recorder,
  fieldTime: FieldTime,
  random: Random,
): void {
  const enter = (club: Club): Team => ({
    club,
    lineup: drawLineup(club, random),
    pitchers: drawPitchers(club, dayNumber, random),
    next: 0,
    runs: 0,
  });
  const [visitors, hosts] = [enter(away), enter(home)];
  let number = 0;
  for (let inning = 1; inning <= LAST_INNING; inning += 1) {
    for (const [batting, fielding] of [
      [visitors, hosts],
      [hosts, visitors],
    ] as const) {
      const last = inning >= INNINGS;
      if (last && batting === hosts && hosts.runs > visitors.runs) return;
      const men = [...fielding.lineup.field];
      men[1] = fielding.pitchers[inning]!;
      const sides: Sides = { order: batting.lineup.order, next: batting.next, men, habit: fielding.club.habit };
      const context: PlayContext = { ...base, inning, batting: batting.club.index, fielding: fielding.club.index };
      const toWin = last && batting === hosts ? visitors.runs - hosts.runs + 1 : Number.POSITIVE_INFINITY;
      const half = playHalfInning(sides, context, recorder, number, toWin, random);
      batting.next = sides.next;
      batting.runs += half.runs;
      number += half.plays;
      fieldTime.add(base.season, fielding.club.index, men, half.outs);
    }
    if (inning >= INNINGS && hosts.runs !== visitors.runs) return;
  }
}
