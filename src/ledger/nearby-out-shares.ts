import { type Grounders, INFIELD_SIZE } from '../chances/grounders.ts';

const LIKE_BEARING_DEG = 6;

/**
 * For a book in which nobody's start is known: each infielder's part of the outs on balls of like bearing (all of them when
 * the bearing is unknown), into `out[at..at+5]`; equal parts for positions 3 to 6 when there are none. They only share out
 * an entry that cannot be divided (method.md 9).
 */
export function nearbyOutShares(grounders: Grounders, play: number, out: Float64Array, at: number): void {
  const bearing = grounders.bearingDeg[play];
  let outs = 0;
  for (let other = 0; other < grounders.count; other += 1) {
    const by = grounders.table.gatheredBy[grounders.row[other]];
    if (by < 1 || by > INFIELD_SIZE || grounders.closed[other] === 0) continue;
    if (Math.abs(grounders.bearingDeg[other] - bearing) > LIKE_BEARING_DEG) continue;
    out[at + by - 1] += 1;
    outs += 1;
  }
  for (let k = 0; k < INFIELD_SIZE; k += 1) out[at + k] = outs > 0 ? out[at + k] / outs : k < 2 ? 0 : 0.25;
}
