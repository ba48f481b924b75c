import { BASE_SPOTS } from '../diamond/field.ts';
import { ON_FIRST, ON_SECOND, ON_THIRD } from '../diamond/play-codes.ts';
import { WHOLE } from './grades.ts';
import { type Grounders, INFIELD_SIZE } from './grounders.ts';
import { type Men, menAt } from './man-term.ts';

/**
 * Seconds that a runner needs to the next base on a force, and home from third, from contact with a lead; usual values from
 * memory. Their level hardly matters, as each target has its own effect in the model.
 */
const FORCED_RUNNER_S = [Number.NaN, Number.NaN, 3.4, 3.4, 3.2];

/** Bases where an out could be made on a grounder: first, and any base to which a runner is forced; home with one on third. */
export function possibleTargets(bases: number): number[] {
  const targets = [1];
  if (bases & ON_FIRST) targets.push(2);
  if (bases & ON_FIRST && bases & ON_SECOND) targets.push(3);
  if (bases & ON_THIRD) targets.push(4);
  return targets;
}

/** Covariates of gathers, each with a target base, in the names of the terms. */
export interface GatherColumns {
  readonly timeLeft: Float64Array;
  readonly throwFt: Float64Array;
  readonly fromHome: Float64Array;
  readonly across: Float64Array;
  readonly forward: Float64Array;
  readonly speed: Float64Array;
  readonly runner: Float64Array;
  readonly target: Uint8Array;
  readonly state: Uint8Array;
  /** Level of the man who gathered; 0, where no fitted row is, for the average man. */
  readonly man: Uint16Array;
}

/** Columns of some gathers, `rows` being their numbers among the grounders; every man is the average one. */
export function gatherColumns(grounders: Grounders, rows: Int32Array, target: Uint8Array): GatherColumns {
  const { table } = grounders;
  const n = rows.length;
  const columns = {
    timeLeft: new Float64Array(n),
    throwFt: new Float64Array(n),
    fromHome: new Float64Array(n),
    across: new Float64Array(n),
    forward: new Float64Array(n),
    speed: new Float64Array(n),
    runner: new Float64Array(n),
    target,
    state: new Uint8Array(n),
    man: new Uint16Array(n),
  };
  for (let k = 0; k < n; k += 1) {
    const at = rows[k];
    const row = grounders.row[at];
    const x = table.gatherXFt[row];
    const y = table.gatherYFt[row];
    const runner = grounders.batterToFirstS[at];
    const base = BASE_SPOTS[target[k]];
    columns.timeLeft[k] = (target[k] === 1 ? runner : FORCED_RUNNER_S[target[k]]) - table.gatherTimeS[row];
    columns.throwFt[k] = Math.hypot(x - base.x, y - base.y);
    columns.fromHome[k] = Math.hypot(x, y);
    const start = (at * INFIELD_SIZE + table.gatheredBy[row] - 1) * 2;
    columns.across[k] = x - grounders.starts[start];
    columns.forward[k] = y - grounders.starts[start + 1];
    columns.speed[k] = grounders.exitSpeedMph[at];
    columns.runner[k] = runner;
    columns.state[k] = grounders.state[at];
  }
  return columns;
}

/** Numbers of the grounders that somebody was seen to gather, by whom is asked of `wanted` (1 to 9). */
export function gatherRows(grounders: Grounders, wanted: (gatheredBy: number) => boolean): Int32Array {
  const rows: number[] = [];
  for (let at = 0; at < grounders.count; at += 1) {
    const by = grounders.table.gatheredBy[grounders.row[at]];
    if (by > 0 && grounders.grade[at] !== WHOLE && wanted(by)) rows.push(at);
  }
  return Int32Array.from(rows);
}

/** Base of the recorded throw; 0 without one. */
export function recordedTarget(grounders: Grounders, at: number): number {
  return grounders.table.throwTo[grounders.row[at]];
}

export function recordedTargets(grounders: Grounders, rows: Int32Array): Uint8Array {
  return Uint8Array.from(rows, (at) => recordedTarget(grounders, at));
}

/** Gathers of one position to fit; columns have the length of `rows`, which numbers the grounders. */
export interface Gathers {
  readonly position: number;
  readonly rows: Int32Array;
  readonly targets: Uint8Array;
  readonly men: Men;
}

export function collectGathers(grounders: Grounders, position: number, rows: Int32Array, targets: Uint8Array): Gathers {
  return { position, rows, targets, men: menAt(grounders, position, rows) };
}

/** Some of the gathers; the men keep their levels. */
export function keepGathers(gathers: Gathers, isKept: (k: number) => boolean): Gathers {
  const kept = (_: number, k: number) => isKept(k);
  return {
    ...gathers,
    rows: gathers.rows.filter(kept),
    targets: gathers.targets.filter(kept),
    men: { ...gathers.men, level: gathers.men.level.filter(kept) },
  };
}
