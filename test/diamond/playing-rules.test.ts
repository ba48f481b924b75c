import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { startOffset } from '../../src/diamond/alignment-sides.ts';
import { legalTwoASide, TWO_A_SIDE, TWO_A_SIDE_CLEAR_OF_BAG } from '../../src/diamond/playing-rules.ts';
import { anyInfield, type Infield, infieldStarts, mirrored, USUAL } from './alignment-infields.ts';

const judge = (infield: Partial<Infield>, reading = TWO_A_SIDE) =>
  legalTwoASide(infieldStarts({ ...USUAL, ...infield }), 0, reading);

/** The second baseman put at a spot, everybody else at home. */
function secondBasemanAt(x: number, y: number, reading = TWO_A_SIDE) {
  const starts = infieldStarts(USUAL);
  starts.set([x, y], startOffset(0, 4));
  return legalTwoASide(starts, 0, reading);
}

describe('the two-a-side rule (Official Baseball Rules 5.02(c) since 2023, from memory)', () => {
  it('is kept by the usual places', () => {
    expect(judge({})).toEqual({
      legal: true,
      reason: 'four infielders inside the outer boundary of the infield, two on each side of second base',
    });
  });

  it('is broken by three on a side, either side', () => {
    expect(judge({ 6: [4, 145] })).toEqual({
      legal: false,
      reason: 'two infielders must stand on each side of second base: 1 stand left of it, 3 right',
    });
    expect(judge({ 4: [-4, 145] }).reason).toContain('3 stand left of it, 1 right');
  });

  it('is broken by a man on the grass, by as much as his farther foot is out', () => {
    // Over second base the arc lies 155.5 ft from home. A man at (1.6, y), square to home, has his feet within two hundredths
    // of a foot of (0.1, y) and (3.1, y); at y = 155.48 he himself is inside and his outer foot is not.
    expect(Math.hypot(1.6, 155.48 - 60.5)).toBeLessThan(95);
    for (const y of [155, 155.4, 155.48, 155.6, 160]) {
      expect(secondBasemanAt(1.6, y).legal).toBe(Math.hypot(3.1, y - 60.5) < 95);
    }
    const deep = judge({ 4: [12, 165] });
    expect(deep.legal).toBe(false);
    expect(deep.reason).toMatch(/^the second baseman has a foot \d+\.\d ft outside the outer boundary of the infield$/);
    // 165 ft at 12 degrees is sqrt(165^2 + 60.5^2 - 2 * 165 * 60.5 * cos 12) - 95 = 11.6 ft past the arc between his feet.
    expect(Number(/([\d.]+) ft/.exec(deep.reason)![1])).toBeGreaterThan(11.5);
    expect(Number(/([\d.]+) ft/.exec(deep.reason)![1])).toBeLessThan(12.1);
  });

  it('names the man who is farthest out, and both faults when there are two', () => {
    expect(judge({ 4: [12, 158], 6: [-16, 163] }).reason).toMatch(/^the shortstop has a foot/);
    expect(judge({ 4: [12, 163], 6: [-16, 158] }).reason).toMatch(/^the second baseman has a foot/);
    expect(judge({ 4: [12, 163], 6: [4, 150] }).reason).toMatch(/1 stand left of it, 3 right; the second baseman has/);
  });

  it('wants both feet on one side: a man astride is on neither', () => {
    expect(secondBasemanAt(1.6, 140).legal).toBe(true);
    expect(secondBasemanAt(1.4, 140)).toEqual({
      legal: false,
      reason: 'the second baseman is not wholly on one side of second base: 2 stand left of it, 1 right',
    });
    expect(secondBasemanAt(0, 140).legal).toBe(false);
    const narrow = { ...TWO_A_SIDE, stanceHalfWidthFt: 0 };
    expect(secondBasemanAt(0.1, 140, narrow).legal).toBe(true);
    expect(secondBasemanAt(0, 140, narrow).reason).toContain('the second baseman is not wholly on one side');
  });

  it('has a stricter reading: clear of the bag, half the diagonal of 18 in', () => {
    const edge = 1.5 + (9 * Math.SQRT2) / 12;
    expect(secondBasemanAt(edge - 0.1, 140, TWO_A_SIDE_CLEAR_OF_BAG).legal).toBe(false);
    expect(secondBasemanAt(edge + 0.1, 140, TWO_A_SIDE_CLEAR_OF_BAG).legal).toBe(true);
    expect(secondBasemanAt(edge - 0.1, 140).legal).toBe(true);
  });

  it("follows the park's own arc", () => {
    const place = { 4: [12, 152] } as const;
    expect(judge(place).legal).toBe(true);
    expect(judge(place, { ...TWO_A_SIDE, boundary: { centreFt: 59, radiusFt: 95 } }).legal).toBe(false);
  });

  it('cannot be judged when a man was not seen', () => {
    const starts = infieldStarts(USUAL);
    starts[startOffset(0, 6) + 1] = Number.NaN;
    expect(legalTwoASide(starts, 0)).toEqual({ legal: null, reason: 'the start of the shortstop was not seen' });
  });

  it('does not depend on the order of the men, nor on left and right', () => {
    const found = { true: 0, false: 0 };
    fc.assert(
      fc.property(anyInfield, fc.shuffledSubarray([3, 4, 5, 6], { minLength: 4 }), (starts, men) => {
        const { legal } = legalTwoASide(starts, 0);
        found[String(legal) as 'true' | 'false'] += 1;
        const shuffled = starts.slice();
        men.forEach((from, k) => {
          shuffled.set(starts.subarray(startOffset(0, from), startOffset(0, from) + 2), startOffset(0, k + 3));
        });
        expect(legalTwoASide(shuffled, 0).legal).toBe(legal);
        expect(legalTwoASide(mirrored(starts), 0).legal).toBe(legal);
      }),
      { seed: 31, numRuns: 500 },
    );
    expect(Math.min(found.true, found.false)).toBeGreaterThan(50);
  });

  it('is easier with a narrower stance: what is legal stays legal', () => {
    fc.assert(
      fc.property(anyInfield, fc.double({ min: 0.01, max: 1.5, noNaN: true }), (starts, stanceHalfWidthFt) => {
        if (legalTwoASide(starts, 0).legal !== true) return;
        expect(legalTwoASide(starts, 0, { ...TWO_A_SIDE, stanceHalfWidthFt }).legal).toBe(true);
      }),
      { seed: 32, numRuns: 500 },
    );
  });
});
