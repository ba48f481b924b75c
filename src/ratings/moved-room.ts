import type { PoissonWeights } from './poisson-weights.ts';
import { type RoomToGain, roomOf } from './room-to-gain.ts';

/** What one play would have gained with a man moved, or with all of a club's. */
export interface MovedGain {
  readonly season: number;
  /** Index into the table's people; null for the club, all moved at once. */
  readonly fielder: number | null;
  readonly position: number | null;
  readonly team: number;
  /** Index into the table's games. */
  readonly game: number;
  readonly outs: number;
  readonly runs: number;
}

/** Room to gain by man and club from gains of single plays, largest first; intervals as of the other room (method.md 10 and 11). */
export function sumMovedGains(gains: Iterable<MovedGain>, weights: PoissonWeights | null): RoomToGain[] {
  const byRow = new Map<string, { row: MovedGain; games: Map<number, [outs: number, runs: number, plays: number]> }>();
  for (const gain of gains) {
    const key = `${gain.season} ${gain.fielder} ${gain.position} ${gain.team}`;
    let found = byRow.get(key);
    if (found === undefined) {
      found = { row: gain, games: new Map() };
      byRow.set(key, found);
    }
    const [outs, runs, plays] = found.games.get(gain.game) ?? [0, 0, 0];
    found.games.set(gain.game, [outs + gain.outs, runs + gain.runs, plays + 1]);
  }
  const all = [...byRow.values()];
  const cells = all.flatMap(({ games }) => [...games].sort(([a], [b]) => a - b));
  const start = new Int32Array(all.length + 1);
  all.forEach(({ games }, r) => {
    start[r + 1] = start[r]! + games.size;
  });
  const column = (at: 0 | 1 | 2) => Float64Array.from(cells, ([, sums]) => sums[at]);
  const sums = {
    rows: all.map(({ row }) => row),
    start,
    game: Int32Array.from(cells, ([game]) => game),
    fullPlays: column(2),
  };
  return roomOf(sums, column(0), column(1), weights)
    .map(({ row: { season, fielder, position, team }, ...room }) => ({ season, fielder, position, team, ...room }))
    .sort((a, b) => b.gainRuns - a.gainRuns);
}
