import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { allocateGeometry, arrivalS, infieldGeometryInto, turnS } from '../../src/chances/chance-order.ts';
import { INFIELD_SIZE } from '../../src/chances/grounders.ts';
import { BallClock } from '../../src/chances/travel-time.ts';
import { radians } from '../../src/diamond/bearing.ts';

function ballAt(bearing: number, mph = 85): { clock: BallClock; sin: number; cos: number } {
  const clock = new BallClock({ fitted: null });
  clock.setBall(mph, -10, 1);
  return { clock, sin: Math.sin(radians(bearing)), cos: Math.cos(radians(bearing)) };
}

function geometry(bearing: number, starts: readonly number[]) {
  const { clock, sin, cos } = ballAt(bearing);
  const out = allocateGeometry();
  infieldGeometryInto(clock, sin, cos, Float64Array.from([99, 99, ...starts]), 2, out);
  return out;
}

/** Pitcher, catcher, first, second, third, short in their usual places. */
const USUAL = [0, 55, 0, -3, 62, 101, 31, 145, -64, 99, -40, 142];

describe('chance order (method.md 1 and 2)', () => {
  it('is the order in which the men would meet the ball', () => {
    const toShort = geometry(-15, USUAL);
    expect(Array.from(toShort.order.subarray(0, 2))).toEqual([1, 0]);
    expect(Array.from(toShort.order).indexOf(4)).toBeLessThan(Array.from(toShort.order).indexOf(5));
    const toRight = geometry(25, USUAL);
    expect(Array.from(toRight.order).indexOf(2)).toBeLessThan(Array.from(toRight.order).indexOf(3));
  });

  it('sorts turns, equal ones by position', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.integer({ min: -8, max: 20 }).map((n) => n * 10),
          { minLength: 12, maxLength: 12 },
        ),
        fc.integer({ min: -45, max: 45 }),
        (starts, bearing) => {
          const { turn, order } = geometry(bearing, starts);
          expect([...order].sort()).toEqual([0, 1, 2, 3, 4, 5]);
          for (let k = 1; k < INFIELD_SIZE; k += 1) {
            const [a, b] = [order[k - 1]!, order[k]!];
            expect(turn[a]! < turn[b]! || (turn[a] === turn[b] && a < b)).toBe(true);
          }
        },
      ),
      { seed: 18 },
    );
  });

  it('gives the mirror image for a mirrored ball and field', () => {
    const mirrored = USUAL.map((value, k) => (k % 2 === 0 ? -value : value));
    const [plain, turned] = [geometry(-22, USUAL), geometry(22, mirrored)];
    for (let k = 0; k < INFIELD_SIZE; k += 1) {
      expect(turned.gap[k]).toBeCloseTo(-plain.gap[k]!, 12);
      expect(turned.arrival[k]).toBeCloseTo(plain.arrival[k]!, 12);
      expect(turned.turn[k]).toBeCloseTo(plain.turn[k]!, 12);
    }
  });

  it('lets a man in the line come before one who must run, though the ball passes that one sooner', () => {
    // Three on the left side: the second baseman 25 ft aside of the ball's line, the shortstop in it and 5 ft deeper.
    const shifted = USUAL.slice();
    const [along, sin, cos] = [140, Math.sin(radians(-17)), Math.cos(radians(-17))];
    [shifted[6], shifted[7]] = [along * sin + 25 * cos, along * cos - 25 * sin];
    [shifted[10], shifted[11]] = [(along + 5) * sin, (along + 5) * cos];
    const { gap, arrival, order } = geometry(-17, shifted);
    expect(gap[3]).toBeCloseTo(-25, 9);
    expect(arrival[3]).toBeLessThan(arrival[5]!);
    expect(order.indexOf(5)).toBeLessThan(order.indexOf(3));
  });

  it('takes no point nearer than ten feet from home, and none behind it', () => {
    const { clock, sin, cos } = ballAt(0);
    expect(arrivalS(clock, sin, cos, 0, -3)).toBe(clock.secondsTo(10));
    expect(arrivalS(clock, sin, cos, 0, 60)).toBe(clock.secondsTo(60));
  });
});

describe('turn (method.md 2)', () => {
  // A usual man as the project has him: 22 ft/s after 0.2 s; a ball with four fifths of its mean speed left.
  const ranFt = (t: number) => 22 * Math.max(t - 0.2, 0);
  const apartFt = (gap: number, along: number, arrival: number, t: number) =>
    Math.hypot(gap, ((0.8 * along) / arrival) * (t - arrival));
  const spot = fc.record({
    gap: fc.double({ min: -60, max: 60, noNaN: true }),
    along: fc.double({ min: 80, max: 170, noNaN: true }),
    // A ball that comes by at 36 ft/s or more.
    meanFtS: fc.double({ min: 45, max: 140, noNaN: true }),
  });

  it('is when a usual man has run as far as the ball is from his start, and not sooner', () => {
    let met = 0;
    fc.assert(
      fc.property(spot, ({ gap, along, meanFtS }) => {
        const arrival = along / meanFtS;
        const turn = turnS(gap, along, arrival);
        const short = (t: number) => apartFt(gap, along, arrival, t) - ranFt(t);
        if (short(turn) > 1e-6) {
          // He never meets it: he is nowhere less far off.
          for (let k = -200; k <= 400; k += 1) expect(short(arrival + k / 100)).toBeGreaterThan(0);
          return;
        }
        met += 1;
        expect(short(turn)).toBeCloseTo(0, 6);
        for (let k = 1; k < 200; k += 1) expect(short((turn * k) / 200)).toBeGreaterThan(0);
      }),
      { seed: 20, numRuns: 300 },
    );
    expect(met).toBeGreaterThan(100);
  });

  it('comes before the ball is nearest for a man in its line, and later the farther he is from it, on either side', () => {
    fc.assert(
      fc.property(spot, ({ gap, along, meanFtS }) => {
        const arrival = along / meanFtS;
        expect(turnS(0, along, arrival)).toBeLessThan(arrival);
        expect(turnS(-gap, along, arrival)).toBe(turnS(gap, along, arrival));
        expect(turnS(1.1 * gap, along, arrival)).toBeGreaterThanOrEqual(turnS(gap, along, arrival));
      }),
      { seed: 21 },
    );
  });
});
