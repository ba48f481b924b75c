import { describe, expect, it } from 'vitest';
import { FLAGS, flagText, GRADES } from '../../src/chances/grades.ts';
import { INFIELD_SIZE, selectGrounders } from '../../src/chances/grounders.ts';
import { CATCHER_START, PITCHER_START } from '../../src/diamond/field.ts';
import { type Fabricated, fabricatePlays, USUAL } from './fabricated-plays.ts';

const one = (play: Fabricated) => {
  const grounders = selectGrounders(fabricatePlays([play]));
  return { grade: GRADES[grounders.grade[0]!], flags: flagText(grounders.flags[0]!), grounders };
};

describe('grades and flags (method.md 9)', () => {
  it.each([
    ['everything known', {}, 'full', ''],
    ['a hit that an outfielder picked up', { gatheredBy: 7, outs: 0 }, 'full', ''],
    ['a hit that nobody gathered', { gatheredBy: 0, outs: 0 }, 'full', ''],
    ['a start not seen', { starts: { 4: null } }, 'ground', 'no_starts'],
    ['no bearing', { bearing: Number.NaN }, 'ground', 'no_bearing'],
    ['no speed', { speed: Number.NaN }, 'ground', 'no_speed'],
    ['no launch angle', { launch: Number.NaN }, 'full', 'no_launch_angle'],
    ['no gather time', { gatherTime: null }, 'full', 'no_gather_time'],
    ['no gather place', { gatherAt: null }, 'full', 'no_gather_place'],
    ['no running time', { runner: Number.NaN }, 'full', 'runner_time_from_side_mean'],
    ['only the result', { gatherSeen: false, gatheredBy: 0 }, 'whole', ''],
    ['only the result, a hit', { gatherSeen: false, gatheredBy: 0, outs: 0 }, 'whole', ''],
    ['an out by nobody', { gatheredBy: 0, outs: 1 }, 'whole', ''],
    [
      'little',
      { gatherSeen: false, gatheredBy: 0, bearing: Number.NaN, speed: Number.NaN, starts: { 6: null } },
      'whole',
      'no_bearing no_speed no_starts',
    ],
  ] as const)('%s', (_, play, grade, flags) => {
    const found = one(play);
    expect(found.grade).toBe(grade);
    expect(found.flags).toBe(flags);
  });

  it('fit in the sixteen bits of a flags column', () => {
    expect(FLAGS.length).toBeLessThanOrEqual(16);
    expect(new Set(FLAGS).size).toBe(FLAGS.length);
  });
});

describe('selectGrounders', () => {
  it('leaves bunts and balls in the air out', () => {
    const kinds = ['ground', 'bunt', 'liner', 'fly', 'popup', 'ground'] as const;
    const grounders = selectGrounders(fabricatePlays(kinds.map((kind) => ({ kind }))));
    expect(Array.from(grounders.row)).toEqual([0, 5]);
  });

  it('closes a play at one when there was an out, however many', () => {
    const grounders = selectGrounders(fabricatePlays([{ outs: 0, gatheredBy: 7 }, { outs: 1 }, { outs: 2 }]));
    expect(Array.from(grounders.closed)).toEqual([0, 1, 1]);
  });

  it('numbers base-out states 0 to 23', () => {
    const plays = [0, 1, 2].flatMap((outsBefore) => [0, 1, 2, 3, 4, 5, 6, 7].map((bases) => ({ outsBefore, bases })));
    expect(Array.from(selectGrounders(fabricatePlays(plays)).state)).toEqual(plays.map((_, k) => k));
  });

  it('gives pitcher and catcher their places, and the others none that was not seen', () => {
    const { starts } = one({ starts: { 5: null } }).grounders;
    expect(Array.from(starts.subarray(0, 4))).toEqual([
      PITCHER_START.x,
      PITCHER_START.y,
      CATCHER_START.x,
      CATCHER_START.y,
    ]);
    expect(starts[2 * 4]).toBeNaN();
    expect(Array.from(starts.subarray(10, 2 * INFIELD_SIZE))).toEqual([...USUAL[6]]);
  });

  it("fills a running time with the side's mean, or the published one when a book has none", () => {
    const some = selectGrounders(
      fabricatePlays([
        { runner: 4.2, side: 'L' },
        { runner: 4.4, side: 'L' },
        { runner: Number.NaN, side: 'L' },
      ]),
    );
    expect(some.batterToFirstS[2]).toBeCloseTo(4.3, 12);
    const none = selectGrounders(
      fabricatePlays([
        { runner: Number.NaN, side: 'L' },
        { runner: Number.NaN, side: 'R' },
      ]),
    );
    // Coleman & Dupler, JEPonline 8(2), 2005: 4.31 s for left-handed batters, 4.35 s for right-handed ones.
    expect(Array.from(none.batterToFirstS)).toEqual([4.31, 4.35]);
  });

  it("fills a launch angle with the grounders' mean", () => {
    const plays = [{ launch: -20 }, { launch: -4 }, { launch: Number.NaN }, { launch: 40, kind: 'fly' as const }];
    expect(selectGrounders(fabricatePlays(plays)).launchAngleDeg[2]).toBeCloseTo(-12, 12);
  });
});
