import { POSITION_COUNT } from '../diamond/play-codes.ts';
import type { ClassLedger } from '../ledger/class-ledger.ts';
import { FINISH, REACH } from '../ledger/entry-kinds.ts';
import type { FielderTotals } from '../ledger/season-totals.ts';

/** What a man did at one position in one season, for all clubs. */
export interface PlayingRecord {
  readonly man: number;
  readonly position: number;
  readonly season: number;
  /** Sum of his h. */
  chances: number;
}

/** Everybody's records; nobody's whom nobody knows. */
export function playingRecords(totals: readonly FielderTotals[]): PlayingRecord[] {
  const records = new Map<string, PlayingRecord>();
  for (const { fielder, position, season, chances } of totals) {
    if (fielder < 0) continue;
    const key = `${season} ${fielder} ${position}`;
    const record = records.get(key) ?? { man: fielder, position, season, chances: 0 };
    record.chances += chances;
    records.set(key, record);
  }
  return [...records.values()];
}

/** What an average chance at a position is like, index by position; NaN where there are none. */
export interface ChanceNature {
  /** Variance of the outs of reach and finish together that an average chance brings: luck, at even skill. */
  readonly variance: Float64Array;
  /** Runs an out of reach and finish. */
  readonly runsAnOut: Float64Array;
}

/** Over all entries of reach and finish: each has mean 0 for an average man, so that squares add up to the variance. */
export function chanceNature(ledgers: readonly ClassLedger[]): ChanceNature {
  const squares = new Float64Array(POSITION_COUNT + 1);
  const outsMoved = new Float64Array(POSITION_COUNT + 1);
  const runsMoved = new Float64Array(POSITION_COUNT + 1);
  const chances = new Float64Array(POSITION_COUNT + 1);
  for (const { entries, plays, chance } of ledgers) {
    for (let e = 0; e < entries.count; e += 1) {
      if (entries.kind[e] !== REACH && entries.kind[e] !== FINISH) continue;
      const position = entries.position[e];
      squares[position] += entries.outs[e] ** 2;
      outsMoved[position] += Math.abs(entries.outs[e]);
      runsMoved[position] += Math.abs(entries.runs[e]);
    }
    chance.forEach((h, k) => {
      chances[1 + (k % plays.men)] += h;
    });
  }
  return {
    variance: squares.map((sum, position) => sum / chances[position]),
    runsAnOut: runsMoved.map((runs, position) => runs / outsMoved[position]),
  };
}
