import { choleskyInPlace, solveCholeskyInPlace } from '../numeric/cholesky.ts';
import type { PlayingRecord } from './playing-record.ts';

/** Chances that a man will have at a position next season, if he is back there. */
export interface ExpectedChances {
  readonly mean: number;
  readonly sd: number;
}

/**
 * Expected chances from last season's, in shares of the position's busiest quarter, by a parabola: who hardly played goes on so, the regular of half
 * a season may become that of a whole one, and more than all there is nobody gets. What comes about it varies as the share itself does.
 */
export interface PlayingTime {
  /** Coefficients of 1, the share and its square. */
  readonly curve: readonly [number, number, number];
  /** Standard deviation of what comes where a whole such season is expected; where less is, as the root of the share. */
  readonly sd: number;
  /** Pairs of seasons that the curve was fitted to; 0 when the book has too few and the usual values serve. */
  readonly pairs: number;
  expect(record: PlayingRecord): ExpectedChances;
}

/** Fewer pairs than this are not fitted. */
const FEWEST_PAIRS = 20;
/** What serves instead, from memory: two thirds of the way from half a full season to what he had, give or take a third at a full season. */
const USUAL = { curve: [0.17, 0.67, 0], sd: 0.33 } as const;
/** Shares count as no less than this where they divide. */
const LEAST_SHARE = 0.02;

/**
 * Fits the curve to all men who had chances at one position in two seasons running. A full season is the mean of the busiest quarter of
 * the men at a position, so that all positions share one curve.
 */
export function fitPlayingTime(records: readonly PlayingRecord[]): PlayingTime {
  const full = fullSeasons(records);
  const of = new Map(records.map((record) => [keyOf(record, record.season), record]));
  const now: number[] = [];
  const next: number[] = [];
  for (const record of records) {
    const after = of.get(keyOf(record, record.season + 1));
    const all = full.get(record.position)!;
    if (after === undefined || !(record.chances > 0) || !(after.chances > 0)) continue;
    now.push(record.chances / all);
    next.push(after.chances / all);
  }
  const { curve, sd } = now.length < FEWEST_PAIRS ? USUAL : fitCurve(now, next);
  return {
    curve,
    sd,
    pairs: now.length < FEWEST_PAIRS ? 0 : now.length,
    expect({ position, chances }) {
      const all = full.get(position)!;
      const share = shareAt(curve, chances / all);
      return { mean: all * share, sd: all * sd * Math.sqrt(share) };
    },
  };
}

function keyOf({ man, position }: PlayingRecord, season: number): string {
  return `${season} ${man} ${position}`;
}

/** Mean chances of the busiest quarter of the men's seasons at each position. */
function fullSeasons(records: readonly PlayingRecord[]): Map<number, number> {
  const byPosition = new Map<number, number[]>();
  for (const { position, chances } of records) {
    const list = byPosition.get(position);
    if (list === undefined) byPosition.set(position, [chances]);
    else list.push(chances);
  }
  return new Map(
    [...byPosition].map(([position, list]) => {
      const busiest = list.sort((a, b) => b - a).slice(0, Math.ceil(list.length / 4));
      const mean = busiest.reduce((sum, chances) => sum + chances, 0) / busiest.length;
      return [position, mean > 0 ? mean : 1];
    }),
  );
}

/** Never less than nothing, and never less for more chances. */
function shareAt([a, b, c]: PlayingTime['curve'], share: number): number {
  const top = c < 0 ? -b / (2 * c) : Number.POSITIVE_INFINITY;
  const x = Math.min(share, top);
  return Math.max(a + b * x + c * x * x, 0);
}

/** Least squares, each pair weighed by what varies about the curve there; a second round, as that is known from the first. */
function fitCurve(now: readonly number[], next: readonly number[]): Pick<PlayingTime, 'curve' | 'sd'> {
  let curve: PlayingTime['curve'] = [1, 0, 0];
  const variances = () => now.map((x) => Math.max(shareAt(curve, x), LEAST_SHARE));
  for (let round = 0; round < 2; round += 1) curve = leastSquares(now, next, variances());
  const scaled = variances().map((variance, i) => (next[i] - shareAt(curve, now[i])) ** 2 / variance);
  const sum = scaled.reduce((total, value) => total + value, 0);
  return { curve, sd: Math.sqrt(sum / (now.length - curve.length)) };
}

/** A parabola through y over x, by the normal equations. */
function leastSquares(
  x: readonly number[],
  y: readonly number[],
  variances: readonly number[],
): [number, number, number] {
  const products = new Float64Array(9);
  const sums = new Float64Array(3);
  x.forEach((value, i) => {
    const basis = [1, value, value * value];
    basis.forEach((own, a) => {
      sums[a] += (own * y[i]) / variances[i];
      basis.forEach((other, b) => {
        products[3 * a + b] += (own * other) / variances[i];
      });
    });
  });
  // Seasons that are all alike say nothing of a slope: a little of 0 is believed of every coefficient.
  for (let a = 0; a < 3; a += 1) products[4 * a] += 1e-9 * products[0];
  choleskyInPlace(products, 3);
  solveCholeskyInPlace(products, 3, sums);
  return [sums[0], sums[1], sums[2]];
}
