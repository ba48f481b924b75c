import type { PlayTable } from '../chances/play-table.ts';
import { orderToSpread } from './order-to-spread.ts';
import { PLANNED_KINDS, type SeenBalls } from './seen-balls.ts';
import { fitTilt, TILT_SIZE, type Tilt, tiltStatistics } from './tilt.ts';

/** How a man's balls are drawn toward the league's; chosen by held-out log density (choose-ball-settings.ts, decision 060). */
export interface BallSettings {
  /** The tilted league counts as much as this many of his own balls. */
  readonly leagueWeight: number;
  /** How strongly his tilt is drawn toward the league: one over the variance of theta. */
  readonly precision: number;
  /** The same of a pitcher's tilt: pitchers differ less in what they give up than batters in what they hit. */
  readonly pitcherPrecision: number;
  /** Width of the kernel around each of his balls, as a share of the normal-reference width. */
  readonly bandwidth: number;
  /** Days after which a ball counts half; Infinity: all count alike. */
  readonly halfLifeDays: number;
}

/** The league's balls of one batting side, thinned evenly, in two halves: one to make plans with and one to judge them by. */
export interface LeagueSide {
  readonly balls: SeenBalls;
  /** How many balls of the side there are, of which the halves are drawn. */
  readonly count: number;
  /** Numbers of the balls (in `balls`) of each half, neighbours alike, and their statistics. */
  readonly halves: readonly [LeagueHalf, LeagueHalf];
  /** Standard deviations by kind (code of BALL_KINDS), three each: bearing, speed, launch angle. */
  readonly spread: readonly Float64Array[];
}

export interface LeagueHalf {
  readonly at: Int32Array;
  readonly statistics: Float64Array;
}

const MOST_IN_A_HALF = 6000;

export function prepareLeagueSide(balls: SeenBalls, ofSide: readonly number[]): LeagueSide {
  const every = Math.max(1, ofSide.length / (2 * MOST_IN_A_HALF));
  const facts = {
    weight: () => 1,
    bearingDeg: (k: number) => balls.bearingDeg[k],
    exitSpeedMph: (k: number) => balls.exitSpeedMph[k] || 0,
  };
  // In an order in which neighbours are alike, so that what is left after thinning stands for all, and either half for the other.
  const ordered = PLANNED_KINDS.flatMap((kind) => {
    const list = ofSide.filter((k) => balls.kind[k] === kind);
    orderToSpread(list, list.length / every / 2, facts);
    return list;
  });
  const kept: number[] = [];
  for (let k = 0; Math.floor(k) < ordered.length; k += every) kept.push(ordered[Math.floor(k)]);
  const half = (parity: number) => {
    const at = Int32Array.from(kept.filter((_, k) => k % 2 === parity));
    return { at, statistics: tiltStatistics(pickBalls(balls, at)) };
  };
  return { balls, count: ofSide.length, halves: [half(0), half(1)], spread: spreads(balls, kept) };
}

/** Some of the balls, in the order given. */
export function pickBalls(balls: SeenBalls, at: ArrayLike<number>): SeenBalls {
  const numbers = (column: Float64Array) => Float64Array.from(at, (k) => column[k]);
  return {
    count: at.length,
    row: Int32Array.from(at, (k) => balls.row[k]),
    kind: Uint8Array.from(at, (k) => balls.kind[k]),
    surface: Uint8Array.from(at, (k) => balls.surface[k]),
    bearingDeg: numbers(balls.bearingDeg),
    exitSpeedMph: numbers(balls.exitSpeedMph),
    launchAngleDeg: numbers(balls.launchAngleDeg),
    distanceFt: numbers(balls.distanceFt),
    hangS: numbers(balls.hangS),
  };
}

function spreads(balls: SeenBalls, kept: readonly number[]): Float64Array[] {
  const out: Float64Array[] = [];
  for (const kind of PLANNED_KINDS) {
    const own = kept.filter((k) => balls.kind[k] === kind);
    out[kind] = Float64Array.from([balls.bearingDeg, balls.exitSpeedMph, balls.launchAngleDeg], (column) =>
      deviation(own.map((k) => column[k]).filter((value) => !Number.isNaN(value))),
    );
  }
  return out;
}

/** Where there is nothing to measure the spread on, a kernel has to have some width. */
const UNKNOWN_SPREAD = 15;

function deviation(values: readonly number[]): number {
  if (values.length < 10) return UNKNOWN_SPREAD;
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length) || UNKNOWN_SPREAD;
}

/** One man's predictive density: his own balls under a kernel, mixed with the league's under his tilt (method.md 12). */
export interface BatterBalls {
  readonly league: LeagueSide;
  /** His balls, each with its weight (1 unless recent ones count more), and their statistics. */
  readonly own: SeenBalls;
  readonly ownWeight: Float64Array;
  readonly ownStatistics: Float64Array;
  readonly tilt: Tilt;
  readonly settings: BallSettings;
  /** Share of his own balls' kernels in the density; the rest is the tilted league. */
  readonly ownShare: number;
  /** Kernel widths by kind, three each: degrees, mph, degrees. */
  readonly width: readonly Float64Array[];
}

/**
 * Draws a man's balls toward his side's league by how many there are. `rows` number his balls among `league.balls`;
 * `lastDay` is the day from which their age is counted.
 */
export function fitBatterBalls(
  table: PlayTable,
  league: LeagueSide,
  numbers: readonly number[],
  lastDay: number,
  settings: BallSettings,
): BatterBalls {
  const own = pickBalls(league.balls, numbers);
  const ownWeight = Float64Array.from(own.row, (row) => 0.5 ** ((lastDay - table.date[row]) / settings.halfLifeDays));
  const ownStatistics = tiltStatistics(own);
  const { sum, total } = weightedSum(ownStatistics, ownWeight);
  return {
    league,
    own,
    ownWeight,
    ownStatistics,
    tilt: fitTilt(league.halves[0].statistics, sum, total, settings.precision),
    settings,
    ownShare: total / (total + settings.leagueWeight),
    width: kernelWidths(own, ownWeight, league, settings),
  };
}

export function weightedSum(statistics: Float64Array, weights: Float64Array): { sum: Float64Array; total: number } {
  const sum = new Float64Array(TILT_SIZE);
  let total = 0;
  for (let k = 0; k < weights.length; k += 1) {
    total += weights[k];
    for (let a = 0; a < TILT_SIZE; a += 1) sum[a] += weights[k] * statistics[k * TILT_SIZE + a];
  }
  return { sum, total };
}

/** Normal-reference widths in three dimensions, n^(-1/7) (Silverman 1986, 4.3.2), of a kind's spread in the league. */
function kernelWidths(
  own: SeenBalls,
  ownWeight: Float64Array,
  { spread }: LeagueSide,
  { bandwidth }: BallSettings,
): Float64Array[] {
  const n = new Float64Array(Math.max(...PLANNED_KINDS) + 1);
  own.kind.forEach((kind, k) => {
    n[kind] += ownWeight[k];
  });
  return spread.map((each, kind) => each.map((deviation) => bandwidth * deviation * Math.max(n[kind], 1) ** (-1 / 7)));
}
