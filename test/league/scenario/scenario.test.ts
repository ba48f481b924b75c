import { expect, test } from 'vitest';
import { foundClub } from '../../../src/league/scenario/club.ts';
import { drawLineup } from '../../../src/league/scenario/lineup.ts';
import type { Person } from '../../../src/league/scenario/person.ts';
import { TOWNS } from '../../../src/league/scenario/towns.ts';
import { winter } from '../../../src/league/scenario/winter.ts';
import { dayPairs } from '../../../src/league/season/schedule.ts';
import { createRandom } from '../../../src/numeric/random.ts';

const found = (count: number) => {
  const people: Person[] = [];
  const clubs = Array.from({ length: count }, (_, k) => foundClub(k, people, 2031, createRandom(k)));
  return { people, clubs };
};

test('every lineup has nine bats, eight gloves and nobody twice', () => {
  const club = found(1).clubs[0]!;
  for (let k = 0; k < 200; k += 1) {
    const { field, order } = drawLineup(club, createRandom(k));
    expect(new Set(field.slice(2)).size).toBe(8);
    expect(new Set(order).size).toBe(9);
    for (const person of field.slice(2)) expect(order).toContain(person);
  }
});

test('no position belongs to one man alone', () => {
  const club = found(1).clubs[0]!;
  const seen = Array.from({ length: 10 }, () => new Map<string, number>());
  for (let k = 0; k < 300; k += 1) {
    const { field } = drawLineup(club, createRandom(k));
    for (let p = 2; p <= 9; p += 1) seen[p]!.set(field[p]!.id, (seen[p]!.get(field[p]!.id) ?? 0) + 1);
  }
  for (let p = 2; p <= 9; p += 1) {
    expect(seen[p]!.size).toBeGreaterThanOrEqual(2);
    expect(Math.max(...seen[p]!.values())).toBeLessThan(280);
  }
});

test('in a winter men come, go, change clubs and positions; rosters keep their size', () => {
  const { people, clubs } = found(12);
  const before = new Map(clubs.flatMap((club) => club.hitters.map((man, k) => [man, `${club.index}-${k}`] as const)));
  const count = people.length;
  winter(clubs, people, 2032, createRandom(4));
  expect(people.length).toBeGreaterThan(count);
  let [clubChanged, placeChanged] = [0, 0];
  for (const club of clubs) {
    expect(new Set([...club.hitters, ...club.starters, ...club.relievers]).size).toBe(23);
    club.hitters.forEach((man, k) => {
      const [oldClub, oldPlace] = (before.get(man) ?? `${club.index}-${k}`).split('-').map(Number);
      if (oldClub !== club.index) clubChanged += 1;
      if (oldPlace !== k) placeChanged += 1;
    });
  }
  expect(clubChanged).toBeGreaterThan(5);
  expect(placeChanged).toBeGreaterThan(2);
});

test('each day every club plays once, and over the laps everybody meets everybody at home and away', () => {
  for (const clubs of [4, 7, 12]) {
    const met = new Set<string>();
    const ring = clubs % 2 === 0 ? clubs : clubs + 1;
    for (let day = 0; day < 2 * (ring - 1); day += 1) {
      const pairs = dayPairs(clubs, day);
      expect(pairs.length).toBe(Math.floor(clubs / 2));
      expect(new Set(pairs.flat()).size).toBe(2 * pairs.length);
      for (const [home, away] of pairs) met.add(`${home}-${away}`);
    }
    expect(met.size).toBe(clubs * (clubs - 1));
  }
});

test('town names are single words and all different, so that a club can be named on a command line', () => {
  expect(new Set(TOWNS).size).toBe(30);
  for (const town of TOWNS) expect(town).toMatch(/^[A-Z][a-z]+$/);
});
