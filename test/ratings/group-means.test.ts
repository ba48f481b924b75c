import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type GroupEvidence, groupMeans, TRIED_SPREADS } from '../../src/ratings/group-means.ts';

/** Visitors whose mean shift was measured to be `mean`, with so much information. */
const group = (home: number, position: number, mean: number, information: number): GroupEvidence => ({
  home,
  position,
  score: mean * information,
  information,
});

describe('mean shifts of groups of visitors (method.md 10)', () => {
  it('is of one group the mixture over both spreads of normal posteriors, by hand', () => {
    const [measured, information] = [0.8, 6];
    let [weights, sum, squares] = [0, 0, 0];
    for (const level of TRIED_SPREADS) {
      for (const own of TRIED_SPREADS) {
        // Two levels and its own part.
        const variance = 2 * level * level + own * own;
        const noise = 1 / information;
        const density = Math.exp((-0.5 * measured ** 2) / (variance + noise)) / Math.sqrt(variance + noise);
        const weight = density * Math.exp(-0.5 * (level * level + own * own));
        const mean = (measured * variance) / (variance + noise);
        weights += weight;
        sum += weight * mean;
        squares += weight * (mean * mean + (variance * noise) / (variance + noise));
      }
    }
    const [found] = groupMeans([group(8, 7, measured, information)]);
    expect(found!.mean).toBeCloseTo(sum / weights, 9);
    expect(found!.sd).toBeCloseTo(Math.sqrt(squares / weights - (sum / weights) ** 2), 9);
  });

  it('knows of those of whom nothing was seen by the levels of others', () => {
    const known = [group(6, 4, 0.8, 60), group(4, 6, -0.8, 60), group(4, 3, 0.9, 60), group(3, 4, -0.9, 60)];
    const [, , , , there, back, stranger] = groupMeans([
      ...known,
      group(6, 3, 0, 0),
      group(3, 6, 0, 0),
      group(9, 2, 0, 0),
    ]);
    expect(there!.mean).toBeGreaterThan(1);
    expect(there!.mean).toBeLessThan(1.7);
    expect(back!.mean).toBeCloseTo(-there!.mean, 9);
    expect(stranger!.mean).toBeCloseTo(0, 9);
    expect(there!.sd).toBeLessThan(stranger!.sd);
  });

  it('keeps a group apart that does not go by levels', () => {
    const odd = groupMeans([group(6, 4, 1, 200), group(4, 6, 1, 200), group(5, 4, 0, 200), group(4, 5, 0, 200)]);
    expect(odd[0]!.mean).toBeGreaterThan(0.8);
    expect(odd[1]!.mean).toBeGreaterThan(0.8);
  });

  it('turns with its evidence, and is between it and 0 for a group alone', () => {
    const evidence = fc.record({
      home: fc.integer({ min: 3, max: 9 }),
      position: fc.integer({ min: 3, max: 9 }),
      score: fc.double({ min: -20, max: 20, noNaN: true }),
      information: fc.double({ min: 0.5, max: 40, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(evidence, { minLength: 1, maxLength: 8 }), (groups) => {
        const means = groupMeans(groups);
        const turned = groupMeans(groups.map((own) => ({ ...own, score: -own.score })));
        means.forEach(({ mean, sd }, g) => {
          expect(turned[g]!.mean).toBeCloseTo(-mean, 8);
          expect(turned[g]!.sd).toBeCloseTo(sd, 8);
        });
        const [alone] = groupMeans([{ ...groups[0]!, home: 3, position: 4 }]);
        const measured = groups[0]!.score / groups[0]!.information;
        expect(Math.abs(alone!.mean)).toBeLessThanOrEqual(Math.abs(measured) + 1e-12);
        expect(alone!.mean * measured).toBeGreaterThanOrEqual(0);
      }),
      { seed: 54, numRuns: 40 },
    );
  });

  it('has nothing to say of nobody', () => {
    expect(groupMeans([])).toEqual([]);
  });
});
