import type { ClassPlays } from '../chances/class-plays.ts';
import { FULL, GRADES } from '../chances/grades.ts';
import { isOvershift } from '../diamond/alignment-sides.ts';
import { INFIELD } from '../diamond/play-codes.ts';
import type { ClassLedger } from './class-ledger.ts';
import { ENTRY_KINDS, PLACEMENT } from './entry-kinds.ts';
import { type FielderRow, FielderRows } from './fielder-rows.ts';

/** Sums of entries by kind, in the order of ENTRY_KINDS. */
export interface KindSums {
  readonly outs: Float64Array;
  readonly runs: Float64Array;
}

/** Sums of one season, defender, position and club. */
export interface FielderTotals extends KindSums, FielderRow {
  /** Plays of the classes that concern his position, while he stood there. */
  plays: number;
  /** The same by grade, in the order of GRADES. */
  readonly gradePlays: Int32Array;
  chances: number;
}

/** Sums of one season and club. */
export interface TeamTotals extends KindSums {
  readonly season: number;
  readonly team: number;
  plays: number;
  /** The same by grade, in the order of GRADES. */
  readonly gradePlays: Int32Array;
  /** Plays of grade `full` with three or more infielders on one side of second base, and placement in them. */
  overshiftPlays: number;
  placementRunsInOvershift: number;
}

const noPlays = () => ({ plays: 0, gradePlays: new Int32Array(GRADES.length) });

function emptySums(): KindSums {
  return { outs: new Float64Array(ENTRY_KINDS.length), runs: new Float64Array(ENTRY_KINDS.length) };
}

function addEntry(sums: KindSums, ledger: ClassLedger, entry: number): void {
  const kind = ledger.entries.kind[entry];
  sums.outs[kind] += ledger.entries.outs[entry];
  sums.runs[kind] += ledger.entries.runs[entry];
}

/** Everybody's totals over the classes, in the order of first appearance. All ledgers are of the same table. */
export function sumFielders(ledgers: readonly ClassLedger[]): FielderTotals[] {
  if (ledgers.length === 0) return [];
  const fielders = new FielderRows(ledgers[0].plays.table);
  const totals: FielderTotals[] = [];
  const of = ({ row }: ClassPlays, at: number, position: number): FielderTotals => {
    const r = fielders.rowOf(row[at], position);
    totals[r] ??= { ...fielders.rows[r], ...noPlays(), chances: 0, ...emptySums() };
    return totals[r];
  };
  for (const ledger of ledgers) {
    const { plays, entries, grade, chance } = ledger;
    for (let at = 0; at < plays.count; at += 1) {
      for (let position = 1; position <= plays.men; position += 1) {
        const total = of(plays, at, position);
        total.plays += 1;
        total.gradePlays[grade[at]] += 1;
        total.chances += chance[at * plays.men + position - 1];
      }
    }
    for (let e = 0; e < entries.count; e += 1) addEntry(of(plays, entries.play[e], entries.position[e]), ledger, e);
  }
  return totals;
}

export function sumTeams(ledgers: readonly ClassLedger[]): TeamTotals[] {
  const totals = new Map<number, TeamTotals>();
  const of = ({ row, season, table }: ClassPlays, at: number): TeamTotals => {
    const team = table.fieldingTeam[row[at]];
    const key = season[at] * table.teams.length + team;
    let total = totals.get(key);
    if (total === undefined) {
      total = {
        season: season[at],
        team,
        ...noPlays(),
        ...emptySums(),
        overshiftPlays: 0,
        placementRunsInOvershift: 0,
      };
      totals.set(key, total);
    }
    return total;
  };
  for (const ledger of ledgers) {
    const { plays, entries, grade } = ledger;
    const overshift = new Uint8Array(plays.count);
    for (let at = 0; at < plays.count; at += 1) {
      const total = of(plays, at);
      total.plays += 1;
      total.gradePlays[grade[at]] += 1;
      if (grade[at] === FULL && inOvershift(plays, at)) {
        overshift[at] = 1;
        total.overshiftPlays += 1;
      }
    }
    for (let e = 0; e < entries.count; e += 1) {
      const at = entries.play[e];
      const total = of(plays, at);
      addEntry(total, ledger, e);
      if (entries.kind[e] === PLACEMENT && overshift[at]) total.placementRunsInOvershift += entries.runs[e];
    }
  }
  return [...totals.values()];
}

/** Whether the infield of a fully recorded play stood in an overshift. */
export function inOvershift({ starts, men }: ClassPlays, at: number): boolean {
  return isOvershift(starts.subarray(2 * at * men, 2 * (at * men + INFIELD.length)), 0) === true;
}

/** Sum of all kinds. */
export function netOf(sums: Float64Array): number {
  return sums.reduce((total, value) => total + value, 0);
}
