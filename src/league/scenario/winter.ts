import type { Random } from '../../numeric/random.ts';
import { BENCH, type Club } from './club.ts';
import { shuffled } from './lineup.ts';
import { inventPerson, type Person } from './person.ts';

const RETIRE_SHARE = 0.09;
const TRADE_SHARE = 0.16;
/** Pairs of regulars' positions that change places within a club. */
const TURNS: readonly (readonly [number, number])[] = [
  [4, 6],
  [5, 6],
  [7, 9],
  [4, 5],
];
const TURN_SHARE = 0.14;

/** Between two seasons: men retire and are replaced, regulars and pitchers change clubs, some change positions. */
export function winter(clubs: readonly Club[], people: Person[], season: number, random: Random): void {
  for (const club of clubs) {
    for (const group of [club.hitters, club.starters, club.relievers]) {
      for (let k = 0; k < group.length; k += 1) {
        if (random.next() < RETIRE_SHARE) group[k] = inventPerson(people, placeOf(club, group, k), season, random);
      }
    }
    for (const [a, b] of TURNS) {
      if (random.next() < TURN_SHARE) swap(club.hitters, a - 2, club.hitters, b - 2);
    }
  }
  const slots = clubs[0]!.hitters.length;
  for (let k = 0; k < slots; k += 1)
    tradeSlot(
      clubs.map(({ hitters }) => hitters),
      k,
      random,
    );
  for (let k = 0; k < clubs[0]!.starters.length; k += 1)
    tradeSlot(
      clubs.map(({ starters }) => starters),
      k,
      random,
    );
}

function placeOf(club: Club, group: Person[], k: number): number {
  if (group !== club.hitters) return 1;
  return k < 8 ? k + 2 : BENCH[k - 8]!.at;
}

/** The clubs that trade at this slot pass their men around. */
function tradeSlot(groups: Person[][], slot: number, random: Random): void {
  const traders = shuffled(groups, random).filter(() => random.next() < TRADE_SHARE);
  for (let i = 1; i < traders.length; i += 1) swap(traders[0]!, slot, traders[i]!, slot);
}

function swap(a: Person[], i: number, b: Person[], j: number): void {
  [a[i], b[j]] = [b[j]!, a[i]!];
}
