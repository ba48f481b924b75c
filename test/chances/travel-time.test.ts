import { beforeAll, describe, expect, it } from 'vitest';
import { type Grounders, selectGrounders } from '../../src/chances/grounders.ts';
import { BallClock, type TravelModel, travelFit } from '../../src/chances/travel-time.ts';
import { simulateLeague } from '../../src/league/simulate-league.ts';
import { fitHere } from '../../src/models/fitting.ts';
import { fabricatePlays } from './fabricated-plays.ts';

function clockOf(model: TravelModel, mph: number, launch = -8, surface = 1): BallClock {
  const clock = new BallClock(model);
  clock.setBall(mph, launch, surface);
  return clock;
}

const SPEEDS = [60, 70, 80, 90, 100];
const DISTANCES = Array.from({ length: 27 }, (_, k) => 30 + 5 * k);

describe.each(['the physical default', 'a model fitted to the demo league'])('travel time by %s', (name) => {
  let model: TravelModel = { fitted: null };
  let grounders: Grounders;
  beforeAll(() => {
    grounders = selectGrounders(simulateLeague({ seasons: 1, teams: 4, seed: 5, ballsPerSeason: 4000 }).plays);
    if (name !== 'the physical default') model = fitHere(travelFit(grounders));
  });

  it('grows with distance', () => {
    for (const mph of SPEEDS) {
      const clock = clockOf(model, mph);
      const times = DISTANCES.map((distance) => clock.secondsTo(distance));
      for (let k = 1; k < times.length; k += 1)
        expect(times[k], `${mph} mph at ${DISTANCES[k]} ft`).toBeGreaterThan(times[k - 1]!);
    }
  });

  it('is shorter for a harder ball', () => {
    for (const distance of [60, 100, 140]) {
      const times = SPEEDS.map((mph) => clockOf(model, mph).secondsTo(distance));
      for (let k = 1; k < times.length; k += 1) expect(times[k]).toBeLessThan(times[k - 1]!);
    }
  });

  it('is never shorter than at constant speed', () => {
    for (const mph of SPEEDS) {
      for (const distance of [60, 100, 140])
        expect(clockOf(model, mph).secondsTo(distance)).toBeGreaterThan(distance / ((mph * 5280) / 3600));
    }
  });

  it('tells when balls were gathered', () => {
    const { table, row } = grounders;
    let squares = 0;
    let n = 0;
    for (let at = 0; at < grounders.count; at += 1) {
      const r = row[at]!;
      const reached = Math.hypot(table.gatherXFt[r]!, table.gatherYFt[r]!);
      if (!(table.gatheredBy[r]! >= 3 && table.gatheredBy[r]! <= 6 && table.gatherTimeS[r]! > 0 && reached > 50))
        continue;
      if (Number.isNaN(grounders.exitSpeedMph[at]!)) continue;
      const clock = clockOf(model, grounders.exitSpeedMph[at]!, grounders.launchAngleDeg[at]!, grounders.surface[at]!);
      squares += Math.log(clock.secondsTo(reached) / table.gatherTimeS[r]!) ** 2;
      n += 1;
    }
    expect(n).toBeGreaterThan(300);
    // The default is a round value; a fit is within some 12 % of each, bobbles included.
    expect(Math.sqrt(squares / n)).toBeLessThan(model.fitted === null ? 0.5 : 0.15);
  });
});

describe('travelFit', () => {
  it('falls back on the default below 300 gather times, and says so by fitting nothing', () => {
    const plays = (count: number) => selectGrounders(fabricatePlays(Array.from({ length: count }, () => ({}))));
    expect(fitHere(travelFit(plays(299))).fitted).toBeNull();
    expect(fitHere(travelFit(plays(300))).fitted).not.toBeNull();
  });

  it('starts at the exit speed in the default: a few feet take what they would without slowing', () => {
    const clock = clockOf({ fitted: null }, 75);
    expect(clock.secondsTo(1)).toBeCloseTo(1 / 110, 4);
    expect(clock.secondsTo(0)).toBe(0);
  });
});
