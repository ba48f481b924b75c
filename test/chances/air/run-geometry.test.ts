import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RunGeometry, runDirectionDeg, takesHops } from '../../../src/chances/air/run-geometry.ts';
import { BALL_KINDS } from '../../../src/diamond/play-codes.ts';

interface Case {
  bearing: number;
  distance: number;
  hang: number;
  x: number;
  y: number;
}

const cases = fc.record({
  bearing: fc.double({ min: -0.8, max: 0.8, noNaN: true }),
  distance: fc.double({ min: 60, max: 400, noNaN: true }),
  hang: fc.double({ min: 0.6, max: 6.5, noNaN: true }),
  x: fc.double({ min: -200, max: 200, noNaN: true }),
  y: fc.double({ min: 20, max: 350, noNaN: true }),
});

function measure({ bearing, distance, hang, x, y }: Case, hops = false) {
  const geometry = new RunGeometry();
  geometry.setBall(Math.sin(bearing), Math.cos(bearing), distance, hang);
  geometry.standAt(x, y, hops);
  const { needFtS, shortFt, timeS, heightFt, hopFt, inFt, acrossFt } = geometry;
  return { needFtS, shortFt, timeS, heightFt, hopFt, inFt, acrossFt };
}

describe('a run to a ball in the air', () => {
  it('is measured in worked numbers', () => {
    // A fly of 5 s comes down 40 ft before a man: 37 ft beyond his arm in 5 s, all of it straight in; 27 ft/s for 4 s is usual.
    const inward = measure({ bearing: 0, distance: 260, hang: 5, x: 0, y: 300 });
    expect(inward.needFtS).toBeCloseTo(37 / 5, 9);
    expect(inward.shortFt).toBeCloseTo(40 - 27 * 4, 9);
    expect(runDirectionDeg(inward.inFt, inward.acrossFt)).toBeCloseTo(0, 6);
    // Behind him he may have it over his head, a few feet and a tenth of a second before it comes down.
    const back = measure({ bearing: 0, distance: 340, hang: 5, x: 0, y: 300 });
    expect(back.heightFt).toBeCloseTo(9, 6);
    expect(back.timeS).toBeGreaterThan(4.85);
    expect(back.inFt).toBeLessThan(-30);
    expect(runDirectionDeg(back.inFt, back.acrossFt)).toBeCloseTo(180, 6);
    // Toward the first-base side is +x for a man who faces home from centre field.
    const across = measure({ bearing: Math.atan2(50, 300), distance: Math.hypot(50, 300), hang: 5, x: 0, y: 300 });
    expect(across.acrossFt).toBeGreaterThan(48);
    expect(across.acrossFt).toBeLessThan(50);
    expect(runDirectionDeg(across.inFt, across.acrossFt)).toBeGreaterThan(80);
    expect(runDirectionDeg(across.inFt, across.acrossFt)).toBeLessThan(100);
  });

  it('takes the height of a liner at an infielder depth', () => {
    // It hangs 1.2 s and is never above 9 ft: the man it is hit at, 140 ft out, has it in his glove at 140/200 of 1.2 s.
    const low = measure({ bearing: 0, distance: 200, hang: 1.2, x: 0, y: 140 });
    expect(low.needFtS).toBe(0);
    expect(low.timeS).toBeCloseTo(0.84, 9);
    expect(low.heightFt).toBeCloseTo(3 * 0.3 + 16.087 * 0.84 * 0.36, 9);
    // One of 2.6 s is far over his head there: he would have to go back to where it comes down to a glove.
    const high = measure({ bearing: 0, distance: 260, hang: 2.6, x: 0, y: 140 });
    expect(high.needFtS).toBeGreaterThan(30);
  });

  it('needs no more than the run to where the ball comes down', () => {
    fc.assert(
      fc.property(cases, (c) => {
        const landing = Math.hypot(c.distance * Math.sin(c.bearing) - c.x, c.distance * Math.cos(c.bearing) - c.y);
        const { needFtS, timeS, heightFt, inFt, acrossFt, shortFt } = measure(c);
        expect(needFtS).toBeLessThanOrEqual(Math.max(landing - 3, 0) / c.hang + 1e-9);
        expect(timeS).toBeLessThanOrEqual(c.hang + 1e-12);
        expect(heightFt).toBeLessThanOrEqual(9 + 1e-9);
        const run = Math.hypot(inFt, acrossFt);
        expect(needFtS * timeS).toBeCloseTo(Math.max(run - 3, 0), 6);
        expect(shortFt).toBeLessThanOrEqual(run + 1e-9);
      }),
    );
  });

  it('does not change when field, ball and man are turned or mirrored together', () => {
    fc.assert(
      fc.property(cases, fc.double({ min: -1, max: 1, noNaN: true }), (c, turn) => {
        const before = measure(c);
        const [sin, cos] = [Math.sin(turn), Math.cos(turn)];
        const turned = measure({
          ...c,
          bearing: c.bearing + turn,
          x: c.x * cos + c.y * sin,
          y: c.y * cos - c.x * sin,
        });
        const mirrored = measure({ ...c, bearing: -c.bearing, x: -c.x });
        for (const name of ['needFtS', 'shortFt', 'timeS', 'heightFt', 'inFt'] as const) {
          expect(turned[name]).toBeCloseTo(before[name], 6);
          expect(mirrored[name]).toBeCloseTo(before[name], 6);
        }
        expect(turned.acrossFt).toBeCloseTo(before.acrossFt, 6);
        expect(mirrored.acrossFt).toBeCloseTo(-before.acrossFt, 6);
      }),
    );
  });

  it('is never longer for a man who may take the ball on a hop', () => {
    fc.assert(
      fc.property(cases, (c) => {
        const air = measure(c);
        const hop = measure(c, true);
        expect(air.hopFt).toBe(0);
        expect(hop.needFtS).toBeLessThanOrEqual(air.needFtS + 1e-9);
      }),
    );
    const shortOfHim = measure({ bearing: 0, distance: 120, hang: 1.1, x: 0, y: 148 }, true);
    expect(shortOfHim.needFtS).toBe(0);
    expect(shortOfHim.hopFt).toBeCloseTo(28, 9);
  });

  it('goes on past the landing for infielders on liners alone', () => {
    const allowed = BALL_KINDS.map((_, kind) => [0, 1, 2, 3, 4, 5, 6, 7, 8].filter((k) => takesHops(k, kind)));
    expect(allowed).toEqual([[], [0, 1, 2, 3, 4, 5], [], [], []]);
  });
});
