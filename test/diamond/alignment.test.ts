import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nameAlignment } from '../../src/diamond/alignment.ts';
import { ALIGNMENT_NAMES, ALIGNMENT_SETTINGS, type AlignmentName } from '../../src/diamond/alignment-names.ts';
import { isOvershift, rightSideInfielders, startOffset } from '../../src/diamond/alignment-sides.ts';
import { ON_FIRST, ON_SECOND, ON_THIRD, SIDES } from '../../src/diamond/play-codes.ts';
import { anyInfield, type Infield, infieldStarts, mirrored, USUAL } from './alignment-infields.ts';

const LEFT = SIDES.indexOf('L');
const RIGHT = SIDES.indexOf('R');
const EMPTY = { outs: 0, bases: 0, batterSide: RIGHT };
const FORCE = { outs: 1, bases: ON_FIRST, batterSide: RIGHT };
const name = (infield: Partial<Infield>, context = EMPTY) =>
  nameAlignment(infieldStarts({ ...USUAL, ...infield }), 0, context);
const contexts = fc.record({
  outs: fc.integer({ min: 0, max: 2 }),
  bases: fc.integer({ min: 0, max: 7 }),
  batterSide: fc.constantFrom(LEFT, RIGHT),
});

describe('the name of an infield', () => {
  it('is straight-up at the usual places, against either side', () => {
    expect(name({})).toBe('straight-up');
    expect(name({ 3: [33, 118], 4: [16, 148], 5: [-32, 118], 6: [-12, 148] }, { ...EMPTY, batterSide: LEFT })).toBe(
      'straight-up',
    );
  });

  it('is an overshift with three men on one side, whatever the depth', () => {
    expect(name({ 5: [-15, 140], 6: [7, 150], 4: [25, 162] })).toBe('overshift');
    expect(name({ 4: [-5, 150] })).toBe('overshift');
    expect(name({ 3: [20, 100], 4: [10, 100], 5: [-20, 100], 6: [1, 100] }, FORCE)).toBe('overshift');
  });

  it('tells men apart by place: two who changed places leave the shape what it was', () => {
    expect(name({ 5: USUAL[6], 6: USUAL[5] })).toBe('straight-up');
    expect(name({ 3: [32, 92], 5: [16, 148], 4: [-33, 92], 6: [-12, 148] })).toBe('corners in');
  });

  it('is infield in with both middle men in, and not with one', () => {
    expect(name({ 3: [32, 99], 4: [12, 110], 5: [-33, 99], 6: [-16, 110] })).toBe('infield in');
    expect(name({ 4: [12, 110] })).toBe('straight-up');
  });

  it('is corners in with both in, holding a runner or not; one alone is not', () => {
    expect(name({ 3: [32, 92], 5: [-33, 92] })).toBe('corners in');
    expect(name({ 3: [42, 95], 5: [-33, 92] })).toBe('corners in');
    expect(name({ 5: [-33, 92] })).toBe('straight-up');
    expect(name({ 3: [42, 95] })).toBe('straight-up');
  });

  it('is double-play depth only where a double play can start at second', () => {
    const close = { 4: [9.5, 137], 6: [-13, 137] } as const;
    expect(name(close, FORCE)).toBe('double-play depth');
    expect(name(close, { ...FORCE, outs: 2 })).not.toBe('double-play depth');
    expect(name(close, { ...FORCE, bases: ON_SECOND | ON_THIRD })).not.toBe('double-play depth');
    // In but not over, and over but not in.
    expect(name({ 4: [17, 137], 6: [-21, 137] }, FORCE)).not.toBe('double-play depth');
    expect(name({ 4: [7, 150], 6: [-11, 150] }, FORCE)).not.toBe('double-play depth');
  });

  it('is guarding the lines with both corners by their lines, one perhaps holding a runner; one alone is not', () => {
    expect(name({ 3: [39, 118], 5: [-39, 118] })).toBe('guarding the lines');
    expect(name({ 3: [42, 95], 5: [-39, 118] })).toBe('guarding the lines');
    expect(name({ 5: [-39, 118] })).toBe('straight-up');
  });

  it('is shaded to the side that the middle men turn to, three steps from what is usual against that batter', () => {
    expect(name({ 4: [16, 148], 6: [-12, 148] })).toBe('shaded right');
    expect(name({ 4: [8, 148], 6: [-20, 148] })).toBe('shaded left');
    // Against a left-handed batter the first of these is where everybody stands.
    expect(name({ 4: [16, 148], 6: [-12, 148] }, { ...EMPTY, batterSide: LEFT })).toBe('straight-up');
    expect(name({}, { ...EMPTY, batterSide: LEFT })).toBe('shaded left');
  });

  it('takes the first that fits in the order of precedence', () => {
    const all = { 3: [39, 92], 4: [14, 137], 5: [-39, 92], 6: [-8, 137] } as const;
    expect(name(all, FORCE)).toBe('corners in');
    expect(name({ ...all, 3: [39, 118], 5: [-39, 118] }, FORCE)).toBe('double-play depth');
    expect(name({ ...all, 3: [39, 118], 5: [-39, 118] })).toBe('guarding the lines');
    expect(name({ ...all, 3: USUAL[3], 5: USUAL[5] })).toBe('shaded right');
  });

  it('is nothing when one of the four was not seen; pitcher and catcher do not matter', () => {
    for (let k = 0; k < 12; k += 1) {
      const starts = infieldStarts(USUAL);
      starts[k] = Number.NaN;
      expect(nameAlignment(starts, 0, EMPTY)).toBe(k < 4 ? 'straight-up' : null);
      expect(rightSideInfielders(starts, 0)).toBe(k < 4 ? 2 : null);
      expect(isOvershift(starts, 0)).toBe(k < 4 ? false : null);
    }
  });

  it('follows its settings', () => {
    const wide = { ...ALIGNMENT_SETTINGS, shadeDeg: 20, straightUpPullDeg: 0 };
    const starts = infieldStarts({ ...USUAL, 4: [16, 148], 6: [-12, 148] });
    expect(nameAlignment(starts, 0, EMPTY)).toBe('shaded right');
    expect(nameAlignment(starts, 0, EMPTY, wide)).toBe('straight-up');
  });

  it('reads the play that it is asked for', () => {
    const starts = new Float64Array(24);
    starts.set(infieldStarts(USUAL));
    starts.set(infieldStarts({ ...USUAL, 6: [4, 150] }), 12);
    expect([0, 1].map((at) => nameAlignment(starts, at, EMPTY))).toEqual(['straight-up', 'overshift']);
    expect([0, 1].map((at) => rightSideInfielders(starts, at))).toEqual([2, 3]);
  });
});

describe('laws of alignments', () => {
  it('the mirror image has the mirrored name, and the men on the two sides change places', () => {
    const swap: Partial<Record<AlignmentName, AlignmentName>> = {
      'shaded left': 'shaded right',
      'shaded right': 'shaded left',
    };
    const met = new Set<AlignmentName>();
    fc.assert(
      fc.property(anyInfield, contexts, (starts, context) => {
        const own = nameAlignment(starts, 0, context)!;
        const image = mirrored(starts);
        met.add(own);
        expect(nameAlignment(image, 0, { ...context, batterSide: 1 - context.batterSide })).toBe(swap[own] ?? own);
        expect(rightSideInfielders(image, 0)).toBe(4 - rightSideInfielders(starts, 0)!);
      }),
      { seed: 21, numRuns: 3000 },
    );
    // The law would say nothing of a name that never came up.
    expect([...met].sort()).toEqual([...ALIGNMENT_NAMES].sort());
  });

  it('a man who crosses second base changes the count by one', () => {
    fc.assert(
      fc.property(anyInfield, fc.constantFrom(3, 4, 5, 6), (starts, position) => {
        const x = startOffset(0, position);
        const before = rightSideInfielders(starts, 0)!;
        const step = starts[x]! > 0 ? -1 : 1;
        starts[x] = -starts[x]!;
        expect(rightSideInfielders(starts, 0)).toBe(before + step);
      }),
      { seed: 22 },
    );
  });

  it('the order of the men changes neither name nor count', () => {
    fc.assert(
      fc.property(anyInfield, contexts, fc.shuffledSubarray([3, 4, 5, 6], { minLength: 4 }), (starts, context, men) => {
        const shuffled = starts.slice();
        men.forEach((from, k) => {
          shuffled.set(starts.subarray(startOffset(0, from), startOffset(0, from) + 2), startOffset(0, k + 3));
        });
        expect(nameAlignment(shuffled, 0, context)).toBe(nameAlignment(starts, 0, context));
        expect(rightSideInfielders(shuffled, 0)).toBe(rightSideInfielders(starts, 0));
      }),
      { seed: 23 },
    );
  });

  it('an overshift is a count of three or more, or of one or fewer', () => {
    fc.assert(
      fc.property(anyInfield, (starts) => {
        expect(isOvershift(starts, 0)).toBe(rightSideInfielders(starts, 0) !== 2);
      }),
      { seed: 24 },
    );
  });
});
