import { SIDES } from '../../src/diamond/play-codes.ts';
import type { ScoredLeague } from '../helpers/scored-league.ts';

const BAND_DEG = 10;

/** Grounders of one batter's side within ten degrees. */
export interface OpeningGroup {
  readonly name: string;
  readonly plays: number;
  /** Outs a play by which the direct opening exceeds the opening mark. */
  readonly difference: number;
  /** The same in standard errors of the outs on these balls, each made with the chance of its opening mark. */
  readonly z: number;
  /** Outs made less the opening mark, in the same. */
  readonly closedZ: number;
}

/** Groups with `fewest` or more plays. */
export function openingGroups({ ledger, grounders }: ScoredLeague, fewest: number): OpeningGroup[] {
  const members = new Map<string, number[]>();
  for (let at = 0; at < grounders.count; at += 1) {
    const bearing = grounders.bearingDeg[at]!;
    if (Number.isNaN(bearing)) continue;
    const from = Math.floor((bearing + BAND_DEG / 2) / BAND_DEG) * BAND_DEG - BAND_DEG / 2;
    const name = `side ${SIDES[grounders.table.batterSide[grounders.row[at]!]!]}, ${from} to ${from + BAND_DEG} degrees`;
    const list = members.get(name);
    if (list === undefined) members.set(name, [at]);
    else list.push(at);
  }
  return [...members]
    .filter(([, list]) => list.length >= fewest)
    .map(([name, list]) => {
      const sum = (value: (at: number) => number) => list.reduce((total, at) => total + value(at), 0);
      const error = Math.sqrt(sum((at) => ledger.opening[at]! * (1 - ledger.opening[at]!)));
      const difference = sum((at) => ledger.openingDirect[at]! - ledger.opening[at]!);
      return {
        name,
        plays: list.length,
        difference: difference / list.length,
        z: difference / error,
        closedZ: sum((at) => grounders.closed[at]! - ledger.opening[at]!) / error,
      };
    });
}
