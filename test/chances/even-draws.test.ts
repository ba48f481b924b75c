import { describe, expect, it } from 'vitest';
import { chooseEvenDraws, type DrawSettings, type EvenDraws, FEWEST_DRAWS } from '../../src/chances/even-draws.ts';
import { flagText } from '../../src/chances/grades.ts';
import { type Grounders, selectGrounders } from '../../src/chances/grounders.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { type Fabricated, fabricatePlays } from './fabricated-plays.ts';

const SETTINGS: DrawSettings = { draws: 24, window: 'rolling', seed: 1 };
const CLUBS = ['Reed', 'Marsh', 'Alder', 'Thorn'];

/** Plays of four clubs over four seasons with bearings all over the field. */
function plays(count: number, seed = 1): Fabricated[] {
  const random = createRandom(seed);
  return Array.from({ length: count }, (_, k) => ({
    id: `p${String(k).padStart(5, '0')}`,
    club: CLUBS[random.integer(4)]!,
    season: 2031 + random.integer(4),
    day: random.integer(180),
    side: random.next() < 0.5 ? 'L' : 'R',
    // In round numbers, as bearings are recorded: many are equal.
    bearing: Math.round(-44 + 88 * random.next()),
    outsBefore: random.integer(3),
    bases: random.integer(8),
  }));
}

const grounders = selectGrounders(fabricatePlays(plays(4000)));
const lendersOf = (draws: EvenDraws, at: number) =>
  Array.from(draws.source.subarray(at * draws.draws, (at + 1) * draws.draws));
const club = (g: Grounders, at: number) => g.table.fieldingTeam[g.row[at]!];
const side = (g: Grounders, at: number) => g.table.batterSide[g.row[at]!];
const date = (g: Grounders, at: number) => g.table.date[g.row[at]!]!;

describe('chooseEvenDraws (method.md 5)', () => {
  it('draws from other clubs, the same side, like bearings, this season and the two before', () => {
    const draws = chooseEvenDraws(grounders, SETTINGS);
    let seasonsBack = 0;
    const faults: string[] = [];
    for (let at = 0; at < grounders.count; at += 1) {
      for (const lender of lendersOf(draws, at)) {
        const back = grounders.season[at]! - grounders.season[lender]!;
        const off = Math.abs(grounders.bearingDeg[lender]! - grounders.bearingDeg[at]!);
        if (lender === at) faults.push(`${at} itself`);
        if (club(grounders, lender) === club(grounders, at)) faults.push(`${at} own club`);
        if (side(grounders, lender) !== side(grounders, at)) faults.push(`${at} other side`);
        if (back < 0 || back > 2) faults.push(`${at} ${back} seasons back`);
        if (draws.flags[at] === 0 && off > 6) faults.push(`${at} ${off} degrees off`);
        seasonsBack = Math.max(seasonsBack, back);
      }
    }
    expect(faults).toEqual([]);
    expect(seasonsBack).toBe(2);
  });

  it('keeps to like base-out states where a play is not flagged', () => {
    const draws = chooseEvenDraws(grounders, SETTINGS);
    const thirdUnderTwo = (at: number) => grounders.state[at]! < 16 && (grounders.state[at]! & 4) !== 0;
    let checked = 0;
    let faults = 0;
    for (let at = 0; at < grounders.count; at += 1) {
      if (draws.flags[at] !== 0) continue;
      checked += 1;
      for (const lender of lendersOf(draws, at)) if (thirdUnderTwo(lender) !== thirdUnderTwo(at)) faults += 1;
    }
    expect(faults).toBe(0);
    expect(checked).toBeGreaterThan(grounders.count / 4);
  });

  it('takes earlier dates only in the strict window, and says where there are none', () => {
    const draws = chooseEvenDraws(grounders, { ...SETTINGS, window: 'strict' });
    let late = 0;
    let faults = 0;
    for (let at = 0; at < grounders.count; at += 1) {
      if (flagText(draws.flags[at]!).includes('later_placements')) late += 1;
      else for (const lender of lendersOf(draws, at)) if (date(grounders, lender) >= date(grounders, at)) faults += 1;
    }
    expect(faults).toBe(0);
    expect(late).toBeGreaterThan(0);
    expect(late).toBeLessThan(grounders.count / 5);
  });

  it('spreads the draws over the pool: the mean bearing of the lenders is that of the ball, inside the field', () => {
    const draws = chooseEvenDraws(grounders, SETTINGS);
    let off = 0;
    let inside = 0;
    let repeated = 0;
    for (let at = 0; at < grounders.count; at += 1) {
      if (Math.abs(grounders.bearingDeg[at]!) > 35 || draws.flags[at] !== 0) continue;
      const mean = lendersOf(draws, at).reduce((sum, lender) => sum + grounders.bearingDeg[lender]!, 0) / 24;
      off += mean - grounders.bearingDeg[at]!;
      inside += 1;
      if (new Set(lendersOf(draws, at)).size !== 24) repeated += 1;
    }
    expect(inside).toBeGreaterThan(500);
    expect(repeated).toBe(0);
    expect(Math.abs(off / inside)).toBeLessThan(0.15);
  });

  it('repeats itself for a seed, changes with it, and does not depend on the order of the plays', () => {
    const named = (g: Grounders, draws: EvenDraws) => {
      const id = (at: number) => g.table.playId[g.row[at]!]!;
      return new Map(Array.from({ length: g.count }, (_, at) => [id(at), lendersOf(draws, at).map(id).join()]));
    };
    const first = named(grounders, chooseEvenDraws(grounders, SETTINGS));
    const other = named(grounders, chooseEvenDraws(grounders, { ...SETTINGS, seed: 2 }));
    expect([...first].filter(([id, lenders]) => other.get(id) !== lenders).length).toBeGreaterThan(grounders.count / 2);
    const turned = selectGrounders(fabricatePlays(plays(4000).reverse()));
    expect(named(turned, chooseEvenDraws(turned, SETTINGS))).toEqual(first);
  });

  it("draws from a lone club's own plays and flags every one", () => {
    const lone = selectGrounders(fabricatePlays(plays(400).map((play) => ({ ...play, club: 'Reed' }))));
    const draws = chooseEvenDraws(lone, SETTINGS);
    for (let at = 0; at < lone.count; at += 1) {
      expect(flagText(draws.flags[at]!)).toBe('own_clubs_placements');
      for (const lender of lendersOf(draws, at)) expect(lender).not.toBe(at);
    }
  });

  it('never lends from plays whose line or infield is unknown, and has nothing to draw from when all are', () => {
    const holes = plays(1500).map((play, k) => (k % 3 === 0 ? { ...play, starts: { 4: null } as const } : play));
    const some = selectGrounders(fabricatePlays(holes));
    const draws = chooseEvenDraws(some, SETTINGS);
    expect(draws.source.every((lender) => some.flags[lender] === 0)).toBe(true);
    const blind = selectGrounders(fabricatePlays(holes.map((play) => ({ ...play, starts: { 4: null } }))));
    expect(new Set(chooseEvenDraws(blind, SETTINGS).source)).toEqual(new Set([-1]));
  });

  it('answers a ball of unknown bearing from the whole list of its side', () => {
    const balls = plays(1500).map((play, k) => (k === 7 ? { ...play, bearing: Number.NaN, season: 2034 } : play));
    const some = selectGrounders(fabricatePlays(balls));
    const at = Array.from(some.bearingDeg).findIndex(Number.isNaN);
    const bearings = lendersOf(chooseEvenDraws(some, SETTINGS), at).map((lender) => some.bearingDeg[lender]!);
    expect(Math.max(...bearings) - Math.min(...bearings)).toBeGreaterThan(60);
  });

  it('refuses fewer than 24 draws', () => {
    expect(FEWEST_DRAWS).toBe(24);
    expect(() => chooseEvenDraws(grounders, { ...SETTINGS, draws: 23 })).toThrow(/at least 24 draws.*received 23/);
    expect(() => chooseEvenDraws(grounders, { ...SETTINGS, draws: Number.NaN })).toThrow(/received NaN/);
  });
});
