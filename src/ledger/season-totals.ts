import { FULL } from '../chances/grades.ts';
import { INFIELD_SIZE } from '../chances/grounders.ts';
import { MOVABLE_INFIELD, POSITION_COUNT } from '../diamond/play-codes.ts';
import { ENTRY_KINDS, PLACEMENT } from './entry-kinds.ts';
import type { GrounderLedger } from './score-grounders.ts';

/** Sums of one season, defender, position and club. */
export interface FielderTotals {
  readonly season: number;
  /** Index into the table's people, -1 when nobody knows who stood there. */
  readonly fielder: number;
  readonly position: number;
  /** Index into the table's teams. */
  readonly team: number;
  plays: number;
  fullPlays: number;
  chances: number;
  /** By ENTRY_KINDS. */
  readonly outs: Float64Array;
}

/** Sums of one season and club. */
export interface TeamTotals {
  readonly season: number;
  readonly team: number;
  plays: number;
  readonly outs: Float64Array;
  /** Plays of grade `full` with three or more infielders on one side of second base, and placement in them. */
  overshiftPlays: number;
  placementInOvershift: number;
}

/** Everybody's totals, in the order of first appearance. A man is counted on every play that he stood on the field for. */
export function sumFielders(ledger: GrounderLedger): FielderTotals[] {
  const { grounders, entries, grade, chance } = ledger;
  const { table } = grounders;
  const totals = new Map<string, FielderTotals>();
  const of = (at: number, position: number): FielderTotals => {
    const row = grounders.row[at];
    const fielder = table.fielder[row * POSITION_COUNT + position - 1];
    const key = `${grounders.season[at]} ${fielder} ${position} ${table.fieldingTeam[row]}`;
    let total = totals.get(key);
    if (total === undefined) {
      total = {
        season: grounders.season[at],
        fielder,
        position,
        team: table.fieldingTeam[row],
        plays: 0,
        fullPlays: 0,
        chances: 0,
        outs: new Float64Array(ENTRY_KINDS.length),
      };
      totals.set(key, total);
    }
    return total;
  };
  for (let at = 0; at < grounders.count; at += 1) {
    for (let position = 1; position <= INFIELD_SIZE; position += 1) {
      const total = of(at, position);
      total.plays += 1;
      if (grade[at] === FULL) total.fullPlays += 1;
      total.chances += chance[at * INFIELD_SIZE + position - 1];
    }
  }
  for (let e = 0; e < entries.count; e += 1)
    of(entries.play[e], entries.position[e]).outs[entries.kind[e]] += entries.outs[e];
  return [...totals.values()];
}

export function sumTeams(ledger: GrounderLedger): TeamTotals[] {
  const { grounders, entries, grade } = ledger;
  const totals = new Map<string, TeamTotals>();
  const overshift = new Uint8Array(grounders.count);
  const of = (at: number): TeamTotals => {
    const team = grounders.table.fieldingTeam[grounders.row[at]];
    const key = `${grounders.season[at]} ${team}`;
    let total = totals.get(key);
    if (total === undefined) {
      const outs = new Float64Array(ENTRY_KINDS.length);
      total = { season: grounders.season[at], team, plays: 0, outs, overshiftPlays: 0, placementInOvershift: 0 };
      totals.set(key, total);
    }
    return total;
  };
  for (let at = 0; at < grounders.count; at += 1) {
    const total = of(at);
    total.plays += 1;
    if (grade[at] === FULL && isOvershift(grounders.starts, at)) {
      overshift[at] = 1;
      total.overshiftPlays += 1;
    }
  }
  for (let e = 0; e < entries.count; e += 1) {
    const total = of(entries.play[e]);
    total.outs[entries.kind[e]] += entries.outs[e];
    if (entries.kind[e] === PLACEMENT && overshift[entries.play[e]]) total.placementInOvershift += entries.outs[e];
  }
  return [...totals.values()];
}

/** Three or more of the four infielders on one side of second base. */
function isOvershift(starts: Float64Array, at: number): boolean {
  let right = 0;
  for (const position of MOVABLE_INFIELD) if (starts[(at * INFIELD_SIZE + position - 1) * 2] > 0) right += 1;
  return right <= 1 || right >= 3;
}

/** Sum of all kinds. */
export function netOuts(outs: Float64Array): number {
  return outs.reduce((sum, value) => sum + value, 0);
}
