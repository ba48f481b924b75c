import { PLACEMENT, REACH } from '../../src/ledger/entry-kinds.ts';
import type { ScoredLeague } from '../helpers/scored-league.ts';
import { fullPlays, isOvershift } from './replays.ts';

/** Outs of placement and of reach, all men together, on each play in overshift by the clubs that make a habit of it. */
export interface OvershiftEntries {
  readonly placement: number[];
  readonly reach: number[];
}

/** `side` is the batter's: 0 left, 1 right; both when it is not given. */
export function overshiftEntries(scored: ScoredLeague, side?: number): OvershiftEntries {
  const { ledger, grounders, league } = scored;
  const { table } = grounders;
  const placement = new Float64Array(grounders.count);
  const reach = new Float64Array(grounders.count);
  for (let e = 0; e < ledger.entries.count; e += 1) {
    const kind = ledger.entries.kind[e];
    const column = kind === PLACEMENT ? placement : kind === REACH ? reach : undefined;
    if (column !== undefined) column[ledger.entries.play[e]!]! += ledger.entries.outs[e]!;
  }
  const habit = league.truth.habits.map((each) => each.habit === 'overshifting');
  const plays = fullPlays(scored, (at) => {
    const row = grounders.row[at]!;
    const wanted = side === undefined || table.batterSide[row] === side;
    return wanted && habit[table.fieldingTeam[row]!]! && isOvershift(scored, at);
  });
  return { placement: plays.map((at) => placement[at]!), reach: plays.map((at) => reach[at]!) };
}
