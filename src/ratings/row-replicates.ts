import type { PoissonWeights } from './poisson-weights.ts';

/** The games of one row: cells `from` to `to - 1` of columns, each cell of the game in `game`. */
export interface GameSpan {
  readonly game: Int32Array;
  readonly from: number;
  readonly to: number;
}

/** With fewer games than this a spread from game to game says nothing. */
export const FEWEST_GAMES = 5;

/**
 * Replicates of one row's sums after another, all from the same game weights, so that rows that share games keep their
 * covariance. Holds scratch space: one a loop.
 */
export class RowReplicates {
  readonly replicates: number;
  private readonly weights: PoissonWeights;
  /** How many games the row has in each replicate. */
  private readonly games: Float64Array;
  private readonly exposures: Float64Array;
  private exposure = 0;
  private span: GameSpan = { game: new Int32Array(0), from: 0, to: 0 };

  constructor(weights: PoissonWeights) {
    this.weights = weights;
    this.replicates = weights.replicates;
    this.games = new Float64Array(weights.replicates);
    this.exposures = new Float64Array(weights.replicates);
  }

  get gameCount(): number {
    return this.span.to - this.span.from;
  }

  setRow(span: GameSpan): void {
    this.span = span;
    this.games.fill(0);
    const { weight } = this.weights;
    for (let cell = span.from; cell < span.to; cell += 1) {
      const base = span.game[cell] * this.replicates;
      for (let r = 0; r < this.replicates; r += 1) this.games[r] += weight[base + r];
    }
  }

  /** Weighted sums of a column by replicate into `out`; returns the plain sum. */
  sumsInto(column: Float64Array, out: Float64Array): number {
    out.fill(0);
    const { game, from, to } = this.span;
    const { weight } = this.weights;
    const { replicates } = this;
    let sum = 0;
    for (let cell = from; cell < to; cell += 1) {
      const value = column[cell];
      if (value === 0) continue;
      sum += value;
      const base = game[cell] * replicates;
      for (let r = 0; r < replicates; r += 1) out[r] += value * weight[base + r];
    }
    return sum;
  }

  /**
   * Replicates of a total over the row's n games into `out` (n given, docs/decisions/050-what-a-standard-error-is-of.md): the
   * total plus sqrt(n / (n - 1)) times the weighted sum of the games' departures from their mean. The expected variance over
   * replicates is n times the sample variance of a game. NaN with fewer than FEWEST_GAMES games. Returns the total.
   */
  totalsInto(column: Float64Array, out: Float64Array): number {
    const total = this.sumsInto(column, out);
    const n = this.gameCount;
    if (n < FEWEST_GAMES) {
      out.fill(Number.NaN);
      return total;
    }
    const factor = Math.sqrt(n / (n - 1));
    const mean = total / n;
    for (let r = 0; r < this.replicates; r += 1) out[r] = total + factor * (out[r] - mean * this.games[r]);
    return total;
  }

  /** Fixes what the ratios of this row are over; returns its sum. */
  setExposure(exposure: Float64Array): number {
    this.exposure = this.sumsInto(exposure, this.exposures);
    return this.exposure;
  }

  /**
   * Replicates of the ratio of a column's sum to the exposure's into `out`, linearised about the ratio: it plus the weighted sum of
   * the games' departures x - ratio c from it, over the sum of c. Unlike a ratio of replicates it has no replicate without any
   * c. NaN with fewer than FEWEST_GAMES games or when c adds up to nothing. Returns the ratio.
   */
  ratiosInto(column: Float64Array, out: Float64Array): number {
    const ratio = this.sumsInto(column, out) / this.exposure;
    const n = this.gameCount;
    if (n < FEWEST_GAMES || !(this.exposure > 0)) {
      out.fill(Number.NaN);
      return ratio;
    }
    const factor = Math.sqrt(n / (n - 1)) / this.exposure;
    for (let r = 0; r < this.replicates; r += 1) out[r] = ratio + factor * (out[r] - ratio * this.exposures[r]);
    return ratio;
  }
}
