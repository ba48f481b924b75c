import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BASE_SPOTS } from '../../../src/diamond/field.ts';
import { measureFromBag, paceFromBag, paceFromEvenSpot, stepsBetween } from '../../../src/plans/card/pacing.ts';

const spot = fc.record({
  x: fc.double({ min: -120, max: 120, noNaN: true }),
  y: fc.double({ min: 30, max: 190, noNaN: true }),
});

describe('pacing from the even spot', () => {
  it('leads to the start: so far across and back, facing home', () => {
    fc.assert(
      fc.property(spot, spot, (even, start) => {
        const { acrossFt, backFt } = stepsBetween(even, start);
        const distance = Math.hypot(even.x, even.y);
        const out = { x: even.x / distance, y: even.y / distance };
        // Facing home, the first-base side is at right angles to the line to home plate.
        expect(even.x + backFt * out.x + acrossFt * out.y).toBeCloseTo(start.x, 9);
        expect(even.y + backFt * out.y - acrossFt * out.x).toBeCloseTo(start.y, 9);
      }),
    );
  });

  it('uses the words of each position', () => {
    const even = { x: 0, y: 100 };
    const words = (position: number, dx: number, dy: number) =>
      paceFromEvenSpot(position, even, { x: even.x + dx, y: even.y + dy });
    expect(words(6, -12, -4)).toBe('12 ft toward the hole, 4 ft in');
    expect(words(6, 12, 4)).toBe('12 ft up the middle, 4 ft back');
    expect(words(5, 9, 0.3)).toBe('9 ft toward the hole');
    expect(words(5, -9, 0)).toBe('9 ft toward the line');
    expect(words(4, 9, 0)).toBe('9 ft toward the hole');
    expect(words(3, 9, 0)).toBe('9 ft toward the line');
    expect(words(8, 9, 7)).toBe('9 ft toward right, 7 ft back');
    expect(words(4, 0.4, -0.4)).toBe('on your even spot');
  });
});

describe('pacing from a bag', () => {
  it('leads to the start: so far along the base path and behind it', () => {
    fc.assert(
      fc.property(spot, (start) => {
        const { bag, alongFt, behindFt } = measureFromBag(start);
        const side = start.x < 0 ? -1 : 1;
        const corner = BASE_SPOTS[side < 0 ? 3 : 1]!;
        const second = BASE_SPOTS[2]!;
        const [from, to] = bag === 2 ? [second, corner] : [corner, second];
        const along = { x: (to.x - from.x) / 90, y: (to.y - from.y) / 90 };
        const back = { x: side * Math.SQRT1_2, y: Math.SQRT1_2 };
        expect(from.x + alongFt * along.x + behindFt * back.x).toBeCloseTo(start.x, 9);
        expect(from.y + alongFt * along.y + behindFt * back.y).toBeCloseTo(start.y, 9);
        expect(alongFt).toBeLessThanOrEqual(45 + 1e-9);
      }),
    );
  });

  it('says it as a coach would', () => {
    const [, first, second, third] = BASE_SPOTS;
    const behind = (bag: { x: number; y: number }, dx: number, dy: number) => ({ x: bag.x + dx, y: bag.y + dy });
    const root = Math.SQRT1_2;
    expect(paceFromBag(5, behind(third!, (14 - 8) * root, (14 + 8) * root))).toBe(
      '14 ft off the line, 8 ft behind third',
    );
    expect(paceFromBag(3, behind(first!, (-14 - 8) * root, (14 - 8) * root))).toBe(
      '14 ft off the line, 8 ft in front of first',
    );
    expect(paceFromBag(6, behind(second!, -(31 + 22) * root, (-31 + 22) * root))).toBe(
      '31 ft from second toward third, 22 ft deep',
    );
    expect(paceFromBag(4, behind(second!, (31 + 22) * root, (-31 + 22) * root))).toBe(
      '31 ft from second toward first, 22 ft deep',
    );
    expect(paceFromBag(3, behind(first!, -8 * root, 8 * root))).toBe('8 ft off the line, level with first');
    expect(paceFromBag(5, behind(third!, -8 * root, 8 * root))).toBe('on the line, 8 ft behind third');
    expect(paceFromBag(6, behind(second!, -31 * root, -31 * root))).toBe(
      '31 ft from second toward third, on the base path',
    );
    expect(paceFromBag(8, { x: 10, y: 310 })).toBe('310 ft from home, 10 ft to the right-field side of second');
    expect(paceFromBag(8, { x: 0, y: 310 })).toBe('310 ft from home, straight behind second');
    expect(paceFromBag(7, { x: -170, y: 220 })).toBe('278 ft from home, 35 ft off the line');
  });
});
