import { expect, it } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import type { PlayingRecord } from '../../src/ratings/playing-record.ts';
import { fitPlayingTime } from '../../src/ratings/playing-time.ts';

const FULL = 200;

/** Two seasons of men with up to a full season; the second varies about a line as the root of the share does. */
function inventRecords(men: number, spread: number): PlayingRecord[] {
  const random = createRandom(11);
  return Array.from({ length: men }, (_, man) => {
    const share = 0.05 + 0.95 * random.next() ** 2;
    const expected = 0.1 + 0.7 * share;
    const next = Math.max(expected + spread * Math.sqrt(expected) * random.normal(), 0.001);
    return [
      { man, position: 4, season: 2031, chances: FULL * share },
      { man, position: 4, season: 2032, chances: FULL * next },
    ];
  }).flat();
}

it('holds 80 % of what came in intervals that were meant to, of men who play little and of regulars alike', () => {
  const records = inventRecords(600, 0.15);
  const playingTime = fitPlayingTime(records);
  expect(playingTime.pairs).toBe(600);
  const pairs = Array.from(
    { length: 600 },
    (_, man) => records.slice(2 * man, 2 * man + 2) as [PlayingRecord, PlayingRecord],
  );
  for (const regular of [false, true]) {
    const own = pairs.filter(([now]) => now.chances > FULL / 3 === regular);
    const inside = own.filter(([now, next]) => {
      const { mean, sd } = playingTime.expect(now);
      return Math.abs(next.chances - mean) <= 1.2816 * sd;
    }).length;
    // Four standard errors of a share of .8 of some 270 men.
    expect(own.length).toBeGreaterThan(200);
    expect(Math.abs(inside / own.length - 0.8)).toBeLessThan(4 * Math.sqrt((0.8 * 0.2) / own.length));
  }
});

it('expects more of who had more, never less than nothing, and what is usual of a book with few pairs', () => {
  const few = fitPlayingTime(inventRecords(5, 0.15));
  expect(few.pairs).toBe(0);
  for (const playingTime of [few, fitPlayingTime(inventRecords(100, 0.15))]) {
    const of = (chances: number) => playingTime.expect({ man: 0, position: 4, season: 2031, chances });
    expect(of(0).mean).toBeGreaterThanOrEqual(0);
    expect(of(150).mean).toBeGreaterThan(of(20).mean);
    expect(of(150).sd).toBeGreaterThan(of(20).sd);
  }
});

it('finds the curve by which shares change', () => {
  const records = Array.from({ length: 40 }, (_, man) => {
    const share = man / 39;
    const record = { man, position: 8, season: 2031, chances: FULL * share };
    return [record, { ...record, season: 2032, chances: FULL * (0.03 + 1.2 * share - 0.4 * share ** 2) }];
  }).flat();
  const playingTime = fitPlayingTime(records);
  // All 39 men with any chances in the first season.
  expect(playingTime.pairs).toBe(39);
  for (const [, now, after] of [0, 10, 25, 39].map((man) => [man, records[2 * man]!, records[2 * man + 1]!] as const)) {
    const { mean, sd } = playingTime.expect(now);
    expect(Math.abs(mean - after.chances)).toBeLessThan(0.01);
    expect(sd).toBeLessThan(0.05);
  }
});
