import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { chiSquareQuantile } from '../../src/numeric/chi-square.ts';
import { spearmanBrown } from '../../src/numeric/correlation.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { groupSums, varianceComponents } from '../../src/numeric/variance-components.ts';
import { findHalfSignal } from '../../src/ratings/half-signal.ts';
import type { ManSeason } from '../../src/ratings/man-seasons.ts';
import { measureReliability } from '../../src/ratings/reliability.ts';

function readGroups(file: string) {
  const lines = readFileSync(join(import.meta.dirname, '../../checks/references', file), 'utf8')
    .trim()
    .split('\n');
  const groups = new Map<string, number[]>();
  for (const line of lines.slice(1)) {
    const cells = line.replaceAll('"', '').split(',');
    const batch = cells[cells.length - 2]!;
    groups.set(batch, [...(groups.get(batch) ?? []), Number(cells[cells.length - 1])]);
  }
  return [...groups.values()].map((values) =>
    groupSums(
      values,
      values.map(() => 1),
    ),
  );
}

describe('varianceComponents', () => {
  it("gives Dyestuff's components, equal groups: 1764.05 and 2451.25 (Davies & Goldsmith 1972; REML of R's lme4)", () => {
    const groups = readGroups('dyestuff.csv');
    expect(groups).toHaveLength(6);
    const { signal, noise } = varianceComponents(groups);
    expect(signal).toBeCloseTo(1764.05, 2);
    expect(noise).toBeCloseTo(2451.25, 6);
  });

  it("gives Shrout & Fleiss's ICC(1,1) on their four judges of six targets, and ICC(1,4) by Spearman-Brown (Psychological Bulletin 86, 1979: .17 and .44)", () => {
    const ratings = ['9 2 5 8', '6 1 3 2', '8 4 6 8', '7 1 2 6', '10 5 6 9', '6 2 4 7'].map((row) =>
      row.split(' ').map(Number),
    );
    const { signal, noise } = varianceComponents(ratings.map((row) => groupSums(row, [1, 1, 1, 1])));
    const single = signal / (signal + noise);
    // More digits worked out again in R.
    expect(single).toBeCloseTo(0.16574177, 8);
    expect(spearmanBrown(single, 4)).toBeCloseTo(0.44279713, 8);
    // Noise over signal is how many judges it takes until their mean is half signal.
    expect(spearmanBrown(single, noise / signal)).toBeCloseTo(0.5, 12);
  });

  it.each([
    ['SiRstv', 12],
    ['AtmWtAg', 8],
    // Many values with equal leading digits: NIST made them to find out who loses digits.
    ['SmLs01', 12],
    ['SmLs04', 8],
  ])("has NIST's certified mean square within groups and F statistic of %s to %i digits", (name, wanted) => {
    const text = readFileSync(join(import.meta.dirname, `../../checks/references/${name}.dat`), 'utf8');
    const [within, f] = [/Within \S+\s+\d+\s+\S+\s+(\S+)/, /Between \S+\s+\d+\s+\S+\s+\S+\s+(\S+)/].map((pattern) =>
      Number(pattern.exec(text)![1]),
    );
    const groups = new Map<string, number[]>();
    for (const line of text.slice(text.lastIndexOf('Data:')).trim().split('\n').slice(1)) {
      const [group, value] = line.trim().split(/\s+/);
      groups.set(group!, [...(groups.get(group!) ?? []), Number(value)]);
    }
    const components = varianceComponents(
      [...groups.values()].map((values) =>
        groupSums(
          values,
          values.map(() => 1),
        ),
      ),
    );
    const digits = (value: number, certified: number) => -Math.log10(Math.abs(value / certified - 1));
    expect(digits(components.noise, within!)).toBeGreaterThan(wanted);
    expect(digits(components.varianceRatio, f!)).toBeGreaterThan(wanted);
  });

  it("finds no signal in Dyestuff2 (Box & Tiao 1973; lme4's REML is on its boundary)", () => {
    expect(varianceComponents(readGroups('dyestuff2.csv')).signal).toBe(0);
  });
});

/** Seasons of men whose rates differ by `signal` (standard deviation), a chance giving an out with noise of one. */
function inventSeasons(men: number, seasons: number, signal: number, seed: number): ManSeason[] {
  const random = createRandom(seed);
  return Array.from({ length: men }, (_, fielder) => {
    const rate = signal * random.normal();
    return Array.from({ length: seasons }, (_, s): ManSeason => {
      const count = 40 + random.integer(100);
      const gameChances = Float64Array.from({ length: count }, () => 4 * random.next());
      const reach = gameChances.map((c) => rate * c + Math.sqrt(c) * random.normal());
      const none = new Float64Array(count);
      const chances = gameChances.reduce((sum, c) => sum + c, 0);
      return {
        fielder,
        season: 2031 + s,
        position: 6,
        chances,
        gameChances,
        gameOuts: [none, reach, none, none, reach],
      };
    });
  }).flat();
}

describe('chiSquareQuantile', () => {
  it("is within 1 % of R's qchisq from 10 degrees of freedom, within 5 % at 5", () => {
    for (const [p, freedom, value] of [
      [0.025, 5, 0.8312116],
      [0.975, 5, 12.8325],
      [0.025, 10, 3.246973],
      [0.025, 30, 16.79077],
      [0.975, 30, 46.97924],
      [0.5, 100, 99.33413],
    ])
      expect(Math.abs(chiSquareQuantile(p!, freedom!) / value! - 1)).toBeLessThan(freedom! < 10 ? 0.05 : 0.01);
  });
});

describe('findHalfSignal', () => {
  it('finds the number of chances at which noise is as large as signal', () => {
    // noise / signal = 1 / 0.1^2 = 100 chances.
    const found = findHalfSignal(inventSeasons(300, 2, 0.1, 4)).find(({ kind }) => kind === 'reach')!;
    expect(found).toMatchObject({ position: 6, n: 600, men: 300 });
    expect(Math.abs(found.chances / 100 - 1)).toBeLessThan(0.25);
    expect(found.lo95).toBeLessThan(100);
    expect(found.hi95).toBeGreaterThan(100);
    expect(found.signalSd).toBeCloseTo(100 * Math.sqrt(0.01), -1);
    expect(found.noiseSdAt100).toBeCloseTo(10, 0);
  });

  it('says that there is no end to it where men do not differ', () => {
    const found = findHalfSignal(inventSeasons(60, 1, 0, 5)).find(({ kind }) => kind === 'reach')!;
    expect(found.hi95).toBe(Number.POSITIVE_INFINITY);
    // Longer at least than the season, some 180 chances, that these men had.
    expect(found.lo95).toBeGreaterThan(180);
  });

  it('covers the truth about as often as it says', () => {
    let covered = 0;
    for (let seed = 0; seed < 60; seed += 1) {
      const { lo95, hi95 } = findHalfSignal(inventSeasons(40, 1, 0.1, 100 + seed)).find(
        ({ kind }) => kind === 'reach',
      )!;
      if (lo95 <= 100 && 100 <= hi95) covered += 1;
    }
    // 57 expected, with a standard deviation of 1.7.
    expect(covered).toBeGreaterThanOrEqual(52);
  });
});

describe('measureReliability', () => {
  it('agrees with the formula: a season of C chances repeats with C / (C + noise / signal)', () => {
    const seasons = inventSeasons(400, 2, 0.1, 8);
    const rows = measureReliability(seasons).filter(({ kind, minChances }) => kind === 'reach' && minChances === 10);
    const mean = seasons.reduce((sum, { chances }) => sum + chances, 0) / seasons.length;
    const expected = mean / (mean + 100);
    const split = rows.find(({ method }) => method === 'split_half')!;
    const years = rows.find(({ method }) => method === 'year_to_year')!;
    expect(split.n).toBe(800);
    expect(years.n).toBe(400);
    expect(split.men).toBe(400);
    // Standard error of a correlation of 400: 0.03 here; the seasons are of unlike lengths.
    expect(Math.abs(split.spearmanBrown - expected)).toBeLessThan(0.07);
    expect(Math.abs(years.r - expected)).toBeLessThan(0.09);
    expect(split.spearmanBrown).toBeCloseTo((2 * split.r) / (1 + split.r), 12);
    expect(years.spearmanBrown).toBeNaN();
    expect(years.lo95).toBeLessThan(expected);
    expect(years.hi95).toBeGreaterThan(expected);
  });

  it('sweeps from lenient to strict while there are men enough, and has nothing to say of a kind without a spread', () => {
    const rows = measureReliability(inventSeasons(30, 2, 0.1, 9));
    const sweep = rows.filter(({ kind, method }) => kind === 'reach' && method === 'split_half');
    expect(sweep[0]!.minChances).toBe(10);
    for (let k = 1; k < sweep.length; k += 1) {
      expect(sweep[k]!.minChances).toBeGreaterThan(sweep[k - 1]!.minChances);
      expect(sweep[k]!.n).toBeLessThanOrEqual(sweep[k - 1]!.n);
    }
    expect(Math.min(...rows.map(({ men }) => men))).toBeGreaterThanOrEqual(5);
    expect(rows.some(({ kind }) => kind === 'turn')).toBe(false);
  });
});
