import type { ClassPlays } from '../chances/class-plays.ts';

const LIKE_BEARING_DEG = 6;
const BINS = 361;

/**
 * For plays that have no placement to be compared with (a book in which nobody's start is known): each man's part of the
 * outs on balls of like bearing. They only share out an entry that cannot be divided (method.md 9).
 */
export class NearbyOutShares {
  private readonly men: number;
  /** Outs by bearing in whole degrees and man, summed over all lower bearings: (BINS + 1) * men. */
  private readonly below: Float64Array;
  /** Outs by man, whatever the bearing. */
  private readonly all: Float64Array;

  constructor(plays: ClassPlays) {
    const { men, count, table, row, closed, bearingDeg } = plays;
    this.men = men;
    this.below = new Float64Array((BINS + 1) * men);
    this.all = new Float64Array(men);
    for (let at = 0; at < count; at += 1) {
      const by = table.gatheredBy[row[at]];
      if (by < 1 || by > men || closed[at] === 0) continue;
      this.all[by - 1] += 1;
      if (!Number.isNaN(bearingDeg[at])) this.below[(binOf(bearingDeg[at]) + 1) * men + by - 1] += 1;
    }
    for (let k = men; k < this.below.length; k += 1) this.below[k] += this.below[k - men];
  }

  /** Writes the shares at a bearing (all bearings when it is NaN) into `out[at..]`; they add up to one, or are all 0 without outs. */
  sharesInto(bearingDeg: number, out: Float64Array, at: number): void {
    const low = binOf(bearingDeg - LIKE_BEARING_DEG) * this.men;
    const high = (binOf(bearingDeg + LIKE_BEARING_DEG) + 1) * this.men;
    let outs = 0;
    for (let k = 0; k < this.men; k += 1) {
      out[at + k] = Number.isNaN(bearingDeg) ? this.all[k] : this.below[high + k] - this.below[low + k];
      outs += out[at + k];
    }
    if (outs > 0) for (let k = 0; k < this.men; k += 1) out[at + k] /= outs;
  }
}

function binOf(bearingDeg: number): number {
  return Math.min(Math.max(Math.round(bearingDeg) + 180, 0), BINS - 1);
}
