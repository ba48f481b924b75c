import type { PlayTable } from '../../chances/play-table.ts';
import { BALL_KINDS, ON_FIRST, RESULTS } from '../../diamond/play-codes.ts';

/** Shares by which a league is recognised as baseball. */
export interface LeagueRates {
  /** Share of balls in play by kind. */
  readonly kinds: Record<string, number>;
  /** Share of each kind with one out or more. */
  readonly outs: Record<string, number>;
  /** Of the grounder outs, the share with two or more; and of these, the share with a runner on first and fewer than two outs. */
  readonly doubled: number;
  readonly doubledWithForce: number;
  readonly grounderErrors: number;
  /** Share of grounders gathered by each position, 0 nobody. */
  readonly gatheredBy: readonly number[];
  readonly results: Record<string, number>;
  readonly runsPerPlay: number;
}

const GROUND = BALL_KINDS.indexOf('ground');
const ERROR = RESULTS.indexOf('error');

export function leagueRates(plays: PlayTable): LeagueRates {
  const kinds = new Float64Array(BALL_KINDS.length);
  const kindOuts = new Float64Array(BALL_KINDS.length);
  const gathered = new Float64Array(10);
  const results = new Float64Array(RESULTS.length);
  let [doubled, forced, errors, runs] = [0, 0, 0, 0];
  for (let row = 0; row < plays.count; row += 1) {
    const kind = plays.ballKind[row]!;
    kinds[kind]! += 1;
    runs += plays.runsScored[row]!;
    if (plays.outsMade[row]! > 0) kindOuts[kind]! += 1;
    if (kind !== GROUND) continue;
    results[plays.result[row]!]! += 1;
    gathered[plays.gatheredBy[row]!]! += 1;
    if (plays.result[row] === ERROR) errors += 1;
    if (plays.outsMade[row]! < 2) continue;
    doubled += 1;
    if (plays.bases[row]! & ON_FIRST && plays.outsBefore[row]! < 2) forced += 1;
  }
  const share = (values: Float64Array, whole: number) => Array.from(values, (value) => value / whole);
  const byKind = (values: readonly number[]) => Object.fromEntries(BALL_KINDS.map((kind, k) => [kind, values[k]!]));
  return {
    kinds: byKind(share(kinds, plays.count)),
    outs: byKind(Array.from(kindOuts, (outs, k) => outs / kinds[k]!)),
    doubled: doubled / kindOuts[GROUND]!,
    doubledWithForce: forced / doubled,
    grounderErrors: errors / kinds[GROUND]!,
    gatheredBy: share(gathered, kinds[GROUND]!),
    results: Object.fromEntries(RESULTS.map((result, k) => [result, results[k]! / kinds[GROUND]!])),
    runsPerPlay: runs / plays.count,
  };
}
