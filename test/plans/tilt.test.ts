import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { allocateBalls } from '../../src/plans/seen-balls.ts';
import { dot, fitTilt, redrawTiltInto, TILT_SIZE, tiltStatistics, tiltWeightsInto } from '../../src/plans/tilt.ts';

/** Balls of any kind whose bearings lie about a mean. */
function someBalls(count: number, meanBearing: number, seed: number) {
  const random = createRandom(seed);
  const balls = allocateBalls(count);
  for (let k = 0; k < count; k += 1) {
    balls.kind[k] = random.integer(4);
    balls.bearingDeg[k] = meanBearing + 15 * random.normal();
    balls.exitSpeedMph[k] = 88 + 12 * random.normal();
    balls.launchAngleDeg[k] = 8 + 22 * random.normal();
  }
  return tiltStatistics(balls);
}

function sumOf(statistics: Float64Array): Float64Array {
  return Float64Array.from({ length: TILT_SIZE }, (_, a) =>
    statistics.filter((_, k) => k % TILT_SIZE === a).reduce((x, y) => x + y, 0),
  );
}

const league = someBalls(2000, 0, 1);

describe('a tilt', () => {
  it('is at the top of its penalised likelihood: mean statistics of the tilted league are those of his balls, less the pull', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 200 }),
        fc.double({ min: -15, max: 15, noNaN: true }),
        fc.double({ min: 1, max: 200, noNaN: true }),
        (n, mean, precision) => {
          const own = someBalls(n, mean, 7);
          const { theta } = fitTilt(league, sumOf(own), n, precision);
          const weight = new Float64Array(2000);
          tiltWeightsInto(theta, league, weight);
          sumOf(own).forEach((sum, a) => {
            let expected = 0;
            for (let k = 0; k < 2000; k += 1) expected += weight[k]! * league[k * TILT_SIZE + a]!;
            expect(sum - n * expected - precision * theta[a]!).toBeCloseTo(0, 4);
          });
        },
      ),
      { numRuns: 25, seed: 3 },
    );
  });

  it('is the league itself without balls, and the nearer to it the stronger it is drawn', () => {
    const own = someBalls(50, 10, 9);
    const size = (precision: number) => Math.hypot(...fitTilt(league, sumOf(own), 50, precision).theta);
    expect(Math.hypot(...fitTilt(league, new Float64Array(TILT_SIZE), 0, 10).theta)).toBe(0);
    expect(size(10)).toBeGreaterThan(size(50));
    expect(size(50)).toBeGreaterThan(size(500));
    expect(size(1e9)).toBeLessThan(1e-5);
  });

  it('gives weights that add up to one, larger where theta points', () => {
    const theta = new Float64Array(TILT_SIZE);
    theta[0] = 1;
    const weight = new Float64Array(2000);
    tiltWeightsInto(theta, league, weight);
    expect(weight.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
    const [low, high] = [league[0]! < league[TILT_SIZE]! ? 0 : 1, league[0]! < league[TILT_SIZE]! ? 1 : 0];
    expect(weight[high]!).toBeGreaterThan(weight[low]!);
    expect(dot(theta, league, 0)).toBe(league[0]);
  });

  it('is redrawn about itself, without balls as widely as the prior says', () => {
    const precision = 25;
    const tilt = fitTilt(league, new Float64Array(TILT_SIZE), 0, precision);
    const random = createRandom(5);
    const out = new Float64Array(TILT_SIZE);
    let squares = 0;
    for (let r = 0; r < 2000; r += 1) {
      redrawTiltInto(tilt, new Float64Array(TILT_SIZE), precision, random, out);
      squares += out[0]! ** 2;
    }
    expect(Math.sqrt(squares / 2000)).toBeCloseTo(1 / Math.sqrt(precision), 1.5);
    expect(Math.abs(Math.sqrt((squares / 2000) * precision) - 1)).toBeLessThan(0.06);
  });
});
