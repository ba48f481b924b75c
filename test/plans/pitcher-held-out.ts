import type { PlayTable } from '../../src/chances/play-table.ts';
import { hashText } from '../../src/numeric/hash.ts';
import { compareDensities, leagueDensity } from '../../src/plans/ball-density.ts';
import {
  type BallSettings,
  type BatterBalls,
  fitBatterBalls,
  type LeagueSide,
  pickBalls,
} from '../../src/plans/batter-balls.ts';
import type { OneBatter } from '../../src/plans/choose-ball-settings.ts';
import { GROUND, type SeenBalls } from '../../src/plans/seen-balls.ts';
import { dot, TILT_SIZE, tiltStatistics, tiltWeightsInto } from '../../src/plans/tilt.ts';

const FOLDS = 3;

/** Mean log density of held-out balls: as the batter hits, and leaned toward what the pitcher of each ball gives up. */
export interface PitcherScore {
  readonly balls: number;
  readonly drawn: number;
  readonly leaned: number;
}

/**
 * The option `pitcher` of a plan on balls of games that neither the batter's density nor the pitcher's tilt has seen. Games are
 * dealt into folds for all men alike.
 */
export function scorePitchers(
  table: PlayTable,
  balls: SeenBalls,
  batters: readonly OneBatter[],
  settings: BallSettings,
): PitcherScore {
  const foldOf = (k: number) => (hashText(table.games[table.game[balls.row[k]!]!]!) >>> 0) % FOLDS;
  const ofPitcher = new Map<string, number[]>();
  const pitcherOf = (k: number) => `${table.pitcher[balls.row[k]!]} ${table.batterSide[balls.row[k]!]}`;
  for (let k = 0; k < balls.count; k += 1) {
    const list = ofPitcher.get(pitcherOf(k));
    if (list === undefined) ofPitcher.set(pitcherOf(k), [k]);
    else list.push(k);
  }
  const fit = (league: LeagueSide, numbers: readonly number[], fold: number, precision = settings.precision) => {
    const train = numbers.filter((k) => foldOf(k) !== fold);
    const lastDay = train.reduce((last, k) => Math.max(last, table.date[balls.row[k]!]!), 0);
    return fitBatterBalls(table, league, train, lastDay, { ...settings, precision });
  };
  const tilts = new Map<string, Float64Array>();
  const tiltOf = (league: LeagueSide, k: number, fold: number) => {
    const key = `${pitcherOf(k)} ${fold}`;
    const known =
      tilts.get(key) ?? fit(league, ofPitcher.get(pitcherOf(k))!, fold, settings.pitcherPrecision).tilt.theta;
    tilts.set(key, known);
    return known;
  };
  const sums = { balls: 0, drawn: 0, leaned: 0 };
  for (const { league, numbers } of batters) {
    for (let fold = 0; fold < FOLDS; fold += 1) {
      const asked = numbers.filter((k) => foldOf(k) === fold && isWhole(balls, k));
      const test = pickBalls(balls, asked);
      const batter = fit(league, numbers, fold);
      const { drawn } = compareDensities(batter, test, leagueDensity(league, test));
      const statistics = tiltStatistics(test);
      const carriers = carriersOf(batter);
      asked.forEach((k, i) => {
        const log = Math.log(Math.max(drawn[i]!, 1e-12));
        const theta = tiltOf(league, k, fold);
        sums.balls += 1;
        sums.drawn += log;
        sums.leaned += log + dot(theta, statistics, i * TILT_SIZE) - Math.log(meanLean(theta, carriers));
      });
    }
  }
  return { balls: sums.balls, drawn: sums.drawn / sums.balls, leaned: sums.leaned / sums.balls };
}

/** The balls of which a batter's density is made, each with its weight. */
function carriersOf({ league, tilt, ownShare, ownWeight, ownStatistics }: BatterBalls) {
  const { statistics } = league.halves[0];
  const inLeague = new Float64Array(statistics.length / TILT_SIZE);
  tiltWeightsInto(tilt.theta, statistics, inLeague);
  const total = ownWeight.reduce((sum, each) => sum + each, 0);
  return [
    { statistics, weight: inLeague.map((each) => (1 - ownShare) * each) },
    { statistics: ownStatistics, weight: ownWeight.map((each) => (ownShare * each) / total) },
  ];
}

function meanLean(theta: Float64Array, carriers: ReturnType<typeof carriersOf>): number {
  let sum = 0;
  for (const { statistics, weight } of carriers)
    for (let k = 0; k < weight.length; k += 1) sum += weight[k]! * Math.exp(dot(theta, statistics, k * TILT_SIZE));
  return sum;
}

function isWhole(balls: SeenBalls, k: number): boolean {
  return !Number.isNaN(balls.exitSpeedMph[k]! + balls.launchAngleDeg[k]!);
}

/**
 * Balls of a league in which pitchers differ, as those of the demo league do not: every second pitcher gets a share of his grounders
 * taken away, every other one the same share of his balls in the air. For the same balls the same are taken.
 */
export function withGivers(table: PlayTable, balls: SeenBalls, share: number): SeenBalls {
  const kept = Array.from(balls.row.keys()).filter((k) => {
    const row = balls.row[k]!;
    const taken = (balls.kind[k] === GROUND) === (table.pitcher[row]! % 2 === 0);
    return !taken || (hashText(table.playId[row]!) >>> 0) / 2 ** 32 >= share;
  });
  return pickBalls(balls, kept);
}
