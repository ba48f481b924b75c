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
  /** Cells of a sum that are not 0. */
  private cells = new Int32Array(0);
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
    if (this.cells.length < this.gameCount) this.cells = new Int32Array(this.gameCount);
    for (let k = 0; k < this.gameCount; k += 1) this.cells[k] = span.from + k;
    this.addWeighted(this.gameCount, null, this.games);
  }

  /** Weighted sums of a column by replicate into `out`; returns the plain sum. */
  sumsInto(column: Float64Array, out: Float64Array): number {
    out.fill(0);
    const { from, to } = this.span;
    let sum = 0;
    let count = 0;
    for (let cell = from; cell < to; cell += 1) {
      if (column[cell] === 0) continue;
      sum += column[cell];
      this.cells[count++] = cell;
    }
    this.addWeighted(count, column, out);
    return sum;
  }

  /**
   * Adds the first `count` of `cells`, each its value (1 without a column) times its game's weight, to every replicate, in the order of the
   * cells: four of them for one reading and writing of a replicate, which is what takes the time.
   */
  private addWeighted(count: number, column: Float64Array | null, out: Float64Array): void {
    const { cells, replicates } = this;
    const { game } = this.span;
    const { weight } = this.weights;
    let k = 0;
    for (; k + 4 <= count; k += 4) {
      const [a, b, c, d] = [cells[k], cells[k + 1], cells[k + 2], cells[k + 3]];
      const [va, vb, vc, vd] = column === null ? [1, 1, 1, 1] : [column[a], column[b], column[c], column[d]];
      const [wa, wb, wc, wd] = [game[a] * replicates, game[b] * replicates, game[c] * replicates, game[d] * replicates];
      for (let r = 0; r < replicates; r += 1) {
        out[r] = out[r] + va * weight[wa + r] + vb * weight[wb + r] + vc * weight[wc + r] + vd * weight[wd + r];
      }
    }
    for (; k < count; k += 1) {
      const value = column === null ? 1 : column[cells[k]];
      const base = game[cells[k]] * replicates;
      for (let r = 0; r < replicates; r += 1) out[r] += value * weight[base + r];
    }
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
