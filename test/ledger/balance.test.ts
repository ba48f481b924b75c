import { describe, expect, it } from 'vitest';
import { FULL, GROUND, WHOLE } from '../../src/chances/grades.ts';
import { selectGrounders } from '../../src/chances/grounders.ts';
import { balanceMarks, shiftedOpening } from '../../src/ledger/balance.ts';
import type { RawMarks } from '../../src/ledger/raw-marks.ts';
import { shiftByOdds } from '../../src/numeric/logistic.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { type Fabricated, fabricatePlays } from '../chances/fabricated-plays.ts';

const DRAWS = 24;

/** Marks that mean nothing for plays of two seasons, one in five of grade `ground`, one in ten `whole`. */
function invented(outs: (k: number) => number, count = 300) {
  const random = createRandom(4);
  const plays: Fabricated[] = Array.from({ length: count }, (_, k) => ({
    season: k < count / 2 ? 2031 : 2032,
    outs: outs(k),
    gatherSeen: k % 10 !== 0,
    ...(k % 10 === 0 ? { gatheredBy: 0 } : {}),
    ...(k % 5 === 1 ? { starts: { 3: null } } : {}),
  }));
  const grounders = selectGrounders(fabricatePlays(plays));
  const numbers = (n: number) => Float64Array.from({ length: n }, () => random.next());
  const raw: RawMarks = {
    draws: DRAWS,
    openingByDraw: numbers(count * DRAWS),
    set: numbers(count),
    gathered: numbers(count),
    share: numbers(count * 6),
    grade: grounders.grade,
  };
  return { grounders, raw };
}

describe('balanceMarks (method.md 7)', () => {
  it('makes each mark add up to the outs, by season and grade', () => {
    const random = createRandom(5);
    const { grounders, raw } = invented(() => (random.next() < 0.75 ? 1 : 0));
    const { groups, groupOf } = balanceMarks(grounders, raw);
    expect(groups.map(({ season, grade }) => `${season} ${grade}`).sort()).toEqual(
      [2031, 2032].flatMap((season) => [FULL, GROUND, WHOLE].map((grade) => `${season} ${grade}`)),
    );
    groups.forEach((group, number) => {
      const plays = Array.from(groupOf.keys()).filter((at) => groupOf[at] === number);
      expect(plays.length).toBe(group.plays);
      const total = (mark: (at: number) => number) => plays.reduce((sum, at) => sum + mark(at), 0);
      const closed = total((at) => grounders.closed[at]!);
      expect(total((at) => shiftedOpening(raw, at, Math.exp(group.opening)))).toBeCloseTo(closed, 8);
      expect(total((at) => shiftedOpening(raw, at, 1)) + group.short.opening).toBeCloseTo(closed, 8);
      const set = total((at) => shiftByOdds(raw.set[at]!, Math.exp(group.set)));
      const gathered = total((at) => shiftByOdds(raw.gathered[at]!, Math.exp(group.gathered)));
      if (group.grade === FULL) expect(set).toBeCloseTo(closed, 8);
      else expect(group.set).toBe(0);
      if (group.grade === WHOLE) expect(group.gathered).toBe(0);
      else expect(gathered).toBeCloseTo(closed, 8);
    });
  });

  it('shifts nothing when the marks add up already', () => {
    const { grounders, raw } = invented((k) => k % 2, 200);
    const half = { ...raw, openingByDraw: raw.openingByDraw.map(() => 0.5) };
    const mixed = balanceMarks(grounders, half).groups.filter(({ grade }) => grade === FULL);
    for (const group of mixed) {
      const outs = Array.from(grounders.closed.keys()).filter(
        (at) => grounders.season[at] === group.season && grounders.grade[at] === FULL,
      );
      const rate = outs.reduce((sum, at) => sum + grounders.closed[at]!, 0) / outs.length;
      expect(group.opening).toBeCloseTo(Math.log(rate / (1 - rate)), 9);
    }
  });

  it.each([
    ['an out on every play', 1],
    ['an out on no play', 0],
  ])('stops at a shift that leaves the marks at %s', (_, outs) => {
    const { grounders, raw } = invented(() => outs, 100);
    const { groups, groupOf } = balanceMarks(grounders, raw);
    for (let at = 0; at < grounders.count; at += 1) {
      const opening = shiftedOpening(raw, at, Math.exp(groups[groupOf[at]!]!.opening));
      expect(Math.abs(opening - outs)).toBeLessThan(1e-9);
    }
  });
});
