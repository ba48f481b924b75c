import { radians } from '../diamond/bearing.ts';
import { CATCHER_START, PITCHER_START } from '../diamond/field.ts';
import { BALL_KINDS, INFIELD, MOVABLE_INFIELD } from '../diamond/play-codes.ts';
import type { ClassPlays } from './class-plays.ts';
import { FULL, flagBit, GROUND, WHOLE } from './grades.ts';
import type { PlayTable } from './play-table.ts';

/** Defenders who may gather a grounder, positions 1 to 6; `starts` holds an (x, y) pair for each. */
export const INFIELD_SIZE = INFIELD.length;

/**
 * The grounders of a table with everything the models ask for, in table order. Columns have length `count`; a missing
 * number is NaN. Bunts are not among them.
 */
export interface Grounders extends ClassPlays {
  readonly sinBearing: Float64Array;
  readonly cosBearing: Float64Array;
  readonly exitSpeedMph: Float64Array;
  /** Never NaN: a missing angle counts as the mean of those recorded, and the play is flagged. */
  readonly launchAngleDeg: Float64Array;
  readonly surface: Uint8Array;
  /** Usual home-to-first time, never NaN. */
  readonly batterToFirstS: Float64Array;
}

/**
 * Mean home-to-first times when a book has none at all, by side L, R: 4.31 s and 4.35 s (Coleman & Dupler, JEPonline 8(2),
 * 2005, 1,580 runs of 316 players in games).
 */
const PUBLISHED_RUNNER_S = [4.31, 4.35];

/** Serves all grounders of a book without a single launch angle; any constant would do. */
const NOMINAL_LAUNCH_DEG = -10;

export function selectGrounders(table: PlayTable): Grounders {
  const groundCode = BALL_KINDS.indexOf('ground');
  let count = 0;
  for (let row = 0; row < table.count; row += 1) if (table.ballKind[row] === groundCode) count += 1;
  const grounders = {
    table,
    count,
    men: INFIELD_SIZE,
    row: new Int32Array(count),
    season: new Int32Array(count),
    bearingDeg: new Float64Array(count),
    sinBearing: new Float64Array(count),
    cosBearing: new Float64Array(count),
    exitSpeedMph: new Float64Array(count),
    launchAngleDeg: new Float64Array(count),
    surface: new Uint8Array(count),
    batterToFirstS: new Float64Array(count),
    state: new Uint8Array(count),
    starts: new Float64Array(count * 2 * INFIELD_SIZE),
    grade: new Uint8Array(count),
    closed: new Uint8Array(count),
    flags: new Uint16Array(count),
  };
  const usualTime = meanRunnerTimes(table);
  const usualLaunch = meanLaunchDeg(table, groundCode);
  let at = 0;
  for (let row = 0; row < table.count; row += 1) {
    if (table.ballKind[row] !== groundCode) continue;
    grounders.row[at] = row;
    grounders.season[at] = table.season[row];
    const bearing = radians(table.bearingDeg[row]);
    grounders.bearingDeg[at] = table.bearingDeg[row];
    grounders.sinBearing[at] = Math.sin(bearing);
    grounders.cosBearing[at] = Math.cos(bearing);
    grounders.exitSpeedMph[at] = table.exitSpeedMph[row];
    grounders.launchAngleDeg[at] = Number.isNaN(table.launchAngleDeg[row]) ? usualLaunch : table.launchAngleDeg[row];
    grounders.surface[at] = table.surface[row];
    grounders.state[at] = table.outsBefore[row] * 8 + table.bases[row];
    grounders.closed[at] = table.outsMade[row] > 0 ? 1 : 0;
    const own = table.batterToFirstS[row];
    grounders.batterToFirstS[at] = Number.isNaN(own) ? usualTime[table.batterSide[row]] : own;
    const startsSeen = copyStarts(table, row, grounders.starts, at * 2 * INFIELD_SIZE);
    grounders.flags[at] = missingFlags(table, row, startsSeen);
    grounders.grade[at] = gradeOf(table, row, startsSeen);
    at += 1;
  }
  return grounders;
}

/** Copies the starts of positions 1 to 6; returns whether all movable infielders were seen. */
function copyStarts(table: PlayTable, row: number, out: Float64Array, at: number): boolean {
  for (const position of INFIELD) {
    const from = row * 9 + position - 1;
    const usual = position === 1 ? PITCHER_START : position === 2 ? CATCHER_START : undefined;
    const unseen = Number.isNaN(table.startXFt[from]) || Number.isNaN(table.startYFt[from]);
    out[at + 2 * position - 2] = unseen ? (usual?.x ?? Number.NaN) : table.startXFt[from];
    out[at + 2 * position - 1] = unseen ? (usual?.y ?? Number.NaN) : table.startYFt[from];
  }
  return MOVABLE_INFIELD.every((position) => !Number.isNaN(out[at + 2 * position - 2]));
}

function gradeOf(table: PlayTable, row: number, startsSeen: boolean): number {
  // An out that nobody gathered is only a result: who made it was not recorded.
  const resultOnly = table.gatherSeen[row] === 0 || (table.gatheredBy[row] === 0 && table.outsMade[row] > 0);
  if (resultOnly) return WHOLE;
  const lineKnown = !Number.isNaN(table.bearingDeg[row]) && !Number.isNaN(table.exitSpeedMph[row]);
  return lineKnown && startsSeen ? FULL : GROUND;
}

function missingFlags(table: PlayTable, row: number, startsSeen: boolean): number {
  let flags = 0;
  if (Number.isNaN(table.bearingDeg[row])) flags |= flagBit('no_bearing');
  if (Number.isNaN(table.exitSpeedMph[row])) flags |= flagBit('no_speed');
  if (Number.isNaN(table.launchAngleDeg[row])) flags |= flagBit('no_launch_angle');
  if (!startsSeen) flags |= flagBit('no_starts');
  if (table.gatheredBy[row] > 0) {
    if (Number.isNaN(table.gatherTimeS[row])) flags |= flagBit('no_gather_time');
    if (Number.isNaN(table.gatherXFt[row]) || Number.isNaN(table.gatherYFt[row])) flags |= flagBit('no_gather_place');
  }
  if (Number.isNaN(table.batterToFirstS[row])) flags |= flagBit('runner_time_from_side_mean');
  return flags;
}

/** Mean recorded home-to-first time by batter's side, over all plays of the table. */
function meanRunnerTimes(table: PlayTable): number[] {
  const sum = [0, 0];
  const n = [0, 0];
  for (let row = 0; row < table.count; row += 1) {
    if (Number.isNaN(table.batterToFirstS[row])) continue;
    sum[table.batterSide[row]] += table.batterToFirstS[row];
    n[table.batterSide[row]] += 1;
  }
  return PUBLISHED_RUNNER_S.map((published, side) => (n[side] > 0 ? sum[side] / n[side] : published));
}

function meanLaunchDeg(table: PlayTable, groundCode: number): number {
  let sum = 0;
  let n = 0;
  for (let row = 0; row < table.count; row += 1) {
    if (table.ballKind[row] !== groundCode || Number.isNaN(table.launchAngleDeg[row])) continue;
    sum += table.launchAngleDeg[row];
    n += 1;
  }
  return n > 0 ? sum / n : NOMINAL_LAUNCH_DEG;
}
