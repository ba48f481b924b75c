import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { correlateClubs, splitByOvershift } from '../../src/ledger/overshift-split.ts';

/** A club with a placement rate and an overshift share given in hundredths. */
const clubOf = (placement: number, share: number, seenPlays = 100) => ({
  seenPlays,
  overshiftPlays: (share * seenPlays) / 100,
  placementRunsInOvershift: (placement * seenPlays) / 100,
  placementRunsOtherwise: 0,
});

describe('placement in overshifts and otherwise', () => {
  it('adds up by club, unseen plays left out', () => {
    const { clubs } = splitByOvershift({
      club: [0, 1, 0, 0, 1, 0],
      clubCount: 3,
      overshift: [1, 0, 0, 1, -1, 1],
      placementRuns: [0.25, 0.5, -0.125, 1, 99, -0.5],
    });
    expect(clubs).toEqual([
      { seenPlays: 4, overshiftPlays: 3, placementRunsInOvershift: 0.75, placementRunsOtherwise: -0.125 },
      { seenPlays: 1, overshiftPlays: 0, placementRunsInOvershift: 0, placementRunsOtherwise: 0.5 },
      { seenPlays: 0, overshiftPlays: 0, placementRunsInOvershift: 0, placementRunsOtherwise: 0 },
    ]);
  });

  it('keeps the sum: the two parts over all clubs are the placement of the seen plays', () => {
    const play = fc.record({
      club: fc.integer({ min: 0, max: 4 }),
      overshift: fc.constantFrom(-1, 0, 1),
      runs: fc.integer({ min: -64, max: 64 }).map((n) => n / 64),
    });
    fc.assert(
      fc.property(fc.array(play), (plays) => {
        const { clubs } = splitByOvershift({
          club: plays.map(({ club }) => club),
          clubCount: 5,
          overshift: plays.map(({ overshift }) => overshift),
          placementRuns: plays.map(({ runs }) => runs),
        });
        const seen = plays.filter(({ overshift }) => overshift >= 0);
        const sum = (values: number[]) => values.reduce((a, b) => a + b, 0);
        expect(sum(clubs.map((c) => c.placementRunsInOvershift + c.placementRunsOtherwise))).toBe(
          sum(seen.map(({ runs }) => runs)),
        );
        expect(sum(clubs.map((c) => c.seenPlays))).toBe(seen.length);
      }),
      { seed: 41 },
    );
  });
});

describe('the correlation over clubs', () => {
  it("has R's value and interval", () => {
    // R 4.2.2, cor.test of the nine pairs on its help page (data of Hollander & Wolfe, 1973).
    const x = [44.4, 45.9, 41.9, 53.3, 44.7, 44.1, 50.7, 45.2, 60.1];
    const y = [2.6, 3.1, 2.5, 5.0, 3.6, 4.0, 5.2, 2.8, 3.8];
    const found = correlateClubs(x.map((placement, k) => clubOf(placement, y[k]!)));
    expect(found.n).toBe(9);
    expect(found.r).toBeCloseTo(0.5711815576, 9);
    expect(found.lo95).toBeCloseTo(-0.149742633, 9);
    expect(found.hi95).toBeCloseTo(0.8955794618, 9);
    expect(found.note).toBe('over 9 clubs: a correlation nearer to 0 than 0.66 cannot be told from none');
  });

  it('is of rates: a club that met twice as many balls changes nothing', () => {
    const rates = [
      [3, 20],
      [-2, 40],
      [1, 10],
      [0, 5],
      [4, 60],
    ] as const;
    const equal = correlateClubs(rates.map(([placement, share]) => clubOf(placement, share)));
    const unequal = correlateClubs(rates.map(([placement, share], k) => clubOf(placement, share, 100 * (k + 1))));
    expect(unequal.r).toBeCloseTo(equal.r, 12);
  });

  it('has a zero inside its interval exactly when it is nearer to zero than the note says', () => {
    const rate = fc.integer({ min: -50, max: 50 });
    fc.assert(
      fc.property(fc.array(fc.tuple(rate, rate), { minLength: 5, maxLength: 30 }), (rates) => {
        const { n, r, lo95, hi95 } = correlateClubs(rates.map(([placement, share]) => clubOf(placement, share)));
        if (Number.isNaN(r)) return;
        expect(lo95).toBeLessThanOrEqual(r);
        expect(hi95).toBeGreaterThanOrEqual(r);
        expect(lo95 < 0 && hi95 > 0).toBe(Math.abs(r) < Math.tanh(1.959963984540054 / Math.sqrt(n - 3)));
      }),
      { seed: 42 },
    );
  });

  it('counts only clubs with plays, and says when there are too few', () => {
    const three = [clubOf(1, 10), clubOf(2, 30), clubOf(3, 20), clubOf(0, 0, 0)];
    const found = correlateClubs([...three.slice(0, 3), { ...three[3]!, seenPlays: 0 }]);
    expect(found.n).toBe(3);
    expect(found.r).toBeCloseTo(0.5, 12);
    expect(found.lo95).toBeNaN();
    expect(found.note).toBe('over 3 clubs only: too few for an interval');
  });

  it('is nothing without a spread, even where rounding would make one', () => {
    for (const clubs of [[], [clubOf(1, 10)], [0.1, 0.1, 0.1, 0.1].map((share, k) => clubOf(k, share))]) {
      const found = correlateClubs(clubs);
      expect(found.r).toBeNaN();
      expect(found.note).toContain('no correlation');
    }
  });

  it('is one, with an interval of one, on a line', () => {
    const found = correlateClubs([1, 2, 3, 5, 8].map((k) => clubOf(k / 3, k * 7)));
    expect(found.r).toBeCloseTo(1, 12);
    expect(found.hi95).toBeGreaterThan(0.999);
    expect(found.lo95).toBeGreaterThan(0.999);
  });
});
