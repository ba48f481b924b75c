import { describe, expect, it } from 'vitest';
import { contourRings, type Grid } from '../../../web/field/contours.ts';
import { densityOf, levelsHolding } from '../../../web/field/density.ts';

/** A grid over a square of 40 ft, a foot a cell. */
function gridOf(valueAt: (x: number, y: number) => number): Grid {
  const size = 41;
  const values = Float64Array.from({ length: size * size }, (_, k) => valueAt((k % size) - 20, Math.floor(k / size)));
  return { values, columns: size, rows: size, leftFt: -20, lowFt: 0, cellFt: 1 };
}

/** Twice the signed area of a ring: which way it turns shows in the sign. */
function areaOf(ring: readonly number[]): number {
  let sum = 0;
  for (let k = 0; k < ring.length; k += 2) {
    const next = (k + 2) % ring.length;
    sum += ring[k]! * ring[next + 1]! - ring[next]! * ring[k + 1]!;
  }
  return sum / 2;
}

describe('contours', () => {
  it('follow a circle to within its cells, and go round a hole the other way', () => {
    const [disc] = contourRings(
      gridOf((x, y) => 10 - Math.hypot(x, y - 20)),
      0,
    );
    expect(Math.abs(areaOf(disc!))).toBeCloseTo(Math.PI * 100, -1);
    const rings = contourRings(
      gridOf((x, y) => 3 - Math.abs(Math.hypot(x, y - 20) - 10)),
      0,
    );
    expect(rings).toHaveLength(2);
    const [one, other] = rings.map(areaOf);
    expect(Math.sign(one!)).toBe(-Math.sign(other!));
    expect(Math.abs(one! + other!)).toBeCloseTo(Math.PI * (13 ** 2 - 7 ** 2), -1);
  });

  it('are closed where what they go round leaves the grid, and none where nothing is', () => {
    const whole = contourRings(
      gridOf(() => 1),
      0.5,
    );
    expect(whole).toHaveLength(1);
    expect(Math.abs(areaOf(whole[0]!))).toBeCloseTo(41 * 41, -1.3);
    expect(
      contourRings(
        gridOf(() => 0),
        0.5,
      ),
    ).toEqual([]);
  });

  it('keep two hills apart that touch at a corner below the level', () => {
    const corners = gridOf((x, y) => ((x === 0 && y === 20) || (x === 1 && y === 21) ? 1 : 0));
    expect(contourRings(corners, 0.6)).toHaveLength(2);
    expect(contourRings(corners, 0.4)).toHaveLength(1);
  });
});

describe('the density of balls', () => {
  it('adds up to the weight of the balls, and its levels hold the shares they say', () => {
    const spots = {
      xFt: Float64Array.of(0, 0, 60),
      yFt: Float64Array.of(100, 100, 150),
      weight: Float64Array.of(2, 1, 1),
    };
    const grid = densityOf(spots, { left: -200, right: 200, low: 0, high: 300 }, 8);
    expect(grid.values.reduce((sum, each) => sum + each, 0)).toBeCloseTo(4, 9);
    const [half, most] = levelsHolding(grid, [0.5, 0.95]);
    expect(half!).toBeGreaterThan(most!);
    for (const [level, share] of [
      [half!, 0.5],
      [most!, 0.95],
    ] as const) {
      const held = grid.values.reduce((sum, each) => sum + (each >= level ? each : 0), 0) / 4;
      expect(held).toBeGreaterThanOrEqual(share);
      expect(held).toBeLessThan(share + 0.05);
    }
  });
});
