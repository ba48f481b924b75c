import { bearingDegOf } from '../../diamond/bearing.ts';
import { CATCHER_START, PITCHER_START } from '../../diamond/field.ts';
import { BALL_KINDS, POSITION_COUNT, RESULTS } from '../../diamond/play-codes.ts';
import type { ClassPlays } from '../class-plays.ts';
import { FULL, flagBit, GROUND, WHOLE } from '../grades.ts';
import type { PlayTable } from '../play-table.ts';

/** All nine may catch a ball in the air. */
export const AIR_MEN = POSITION_COUNT;

/** Positions that move with ball and batter: all but pitcher and catcher. */
const MOVABLE = [3, 4, 5, 6, 7, 8, 9] as const;

const AIR_KINDS: readonly number[] = ['liner', 'fly', 'popup'].map((kind) => BALL_KINDS.indexOf(kind as 'liner'));
const OUT = RESULTS.indexOf('out');
const FIELDERS_CHOICE = RESULTS.indexOf('fielders_choice');

/** A ball in hand this much later than it came down was taken on a hop, seconds: room for two watches. */
const HOP_AFTER_S = 0.1;

/**
 * The liners, flies and popups of a table, in table order. Columns have length `count`; a missing number is NaN.
 *
 * `table` is the table given but for two columns of its air balls, so that a ball picked up after it fell is nobody's
 * gather: there `gatheredBy` names who caught the ball, `touchedBy` who caught or dropped it, 0 for nobody. An infielder's
 * out on a liner that he took on a hop counts as caught: the throw is part of his reach, since nothing else tells them apart
 * where nobody timed the gather.
 */
export interface AirBalls extends ClassPlays {
  /** Code of BALL_KINDS. */
  readonly kind: Uint8Array;
  /** Where and when the ball came down or was caught. */
  readonly landingXFt: Float64Array;
  readonly landingYFt: Float64Array;
  readonly hangTimeS: Float64Array;
  /** 1 when landing spot and hang time are those of a catch, before the ball would have come down. */
  readonly inGlove: Uint8Array;
  readonly exitSpeedMph: Float64Array;
  readonly launchAngleDeg: Float64Array;
  /** Who picked the ball up after it fell, 0 for nobody, or when it was caught. */
  readonly hopBy: Uint8Array;
  readonly unfitToLend: number;
}

export function selectAirBalls(table: PlayTable): AirBalls {
  const rows: number[] = [];
  for (let row = 0; row < table.count; row += 1) if (AIR_KINDS.includes(table.ballKind[row])) rows.push(row);
  const count = rows.length;
  const ownTable = { ...table, gatheredBy: table.gatheredBy.slice(), touchedBy: table.touchedBy.slice() };
  const numbers = (column: Float64Array) => Float64Array.from(rows, (row) => column[row]);
  const balls = {
    table: ownTable,
    count,
    men: AIR_MEN,
    row: Int32Array.from(rows),
    season: Int32Array.from(rows, (row) => table.season[row]),
    kind: Uint8Array.from(rows, (row) => table.ballKind[row]),
    bearingDeg: Float64Array.from(rows, (row) => bearingOf(table, row)),
    landingXFt: numbers(table.landingXFt),
    landingYFt: numbers(table.landingYFt),
    hangTimeS: numbers(table.hangTimeS),
    inGlove: new Uint8Array(count),
    exitSpeedMph: numbers(table.exitSpeedMph),
    launchAngleDeg: numbers(table.launchAngleDeg),
    state: Uint8Array.from(rows, (row) => table.outsBefore[row] * 8 + table.bases[row]),
    starts: new Float64Array(count * 2 * AIR_MEN),
    grade: new Uint8Array(count),
    closed: Uint8Array.from(rows, (row) => (table.outsMade[row] > 0 ? 1 : 0)),
    flags: new Uint16Array(count),
    hopBy: new Uint8Array(count),
    unfitToLend: flagBit('no_starts') | flagBit('no_bearing') | flagBit('no_flight'),
  };
  rows.forEach((row, at) => {
    const startsSeen = copyStarts(table, row, balls.starts, at * 2 * AIR_MEN);
    balls.flags[at] = missingFlags(table, row, balls.bearingDeg[at], startsSeen);
    const resultOnly = table.gatherSeen[row] === 0 || (table.gatheredBy[row] === 0 && table.outsMade[row] > 0);
    balls.grade[at] = resultOnly ? WHOLE : startsSeen && flightSeen(table, row) ? FULL : GROUND;
    const caught = isCatch(table, row);
    balls.inGlove[at] = (caught || (resultOnly && table.result[row] === OUT)) && !onTheHop(table, row) ? 1 : 0;
    if (caught) {
      ownTable.touchedBy[row] = table.gatheredBy[row];
      return;
    }
    balls.hopBy[at] = table.gatheredBy[row];
    ownTable.gatheredBy[row] = 0;
    // Somebody who had it after it fell, or another's touch before that, is no drop.
    if (table.gatheredBy[row] > 0) ownTable.touchedBy[row] = 0;
  });
  return balls;
}

/** Gathered with an out made on it; by an outfielder not later than the ball came down. */
function isCatch(table: PlayTable, row: number): boolean {
  const by = table.gatheredBy[row];
  if (by === 0 || table.outsMade[row] === 0) return false;
  if (by >= 7) return table.result[row] === OUT && !onTheHop(table, row);
  return table.result[row] === OUT || table.result[row] === FIELDERS_CHOICE;
}

function onTheHop(table: PlayTable, row: number): boolean {
  return table.gatherTimeS[row] > table.hangTimeS[row] + HOP_AFTER_S;
}

function flightSeen(table: PlayTable, row: number): boolean {
  return table.hangTimeS[row] > 0 && Math.hypot(table.landingXFt[row], table.landingYFt[row]) > 0;
}

function bearingOf(table: PlayTable, row: number): number {
  const recorded = table.bearingDeg[row];
  return Number.isNaN(recorded) ? bearingDegOf(table.landingXFt[row], table.landingYFt[row]) : recorded;
}

/** Copies all nine starts; returns whether those of all movable men were seen. */
function copyStarts(table: PlayTable, row: number, out: Float64Array, at: number): boolean {
  for (let k = 0; k < AIR_MEN; k += 1) {
    const from = row * 9 + k;
    const usual = k === 0 ? PITCHER_START : k === 1 ? CATCHER_START : undefined;
    const unseen = Number.isNaN(table.startXFt[from]) || Number.isNaN(table.startYFt[from]);
    out[at + 2 * k] = unseen ? (usual?.x ?? Number.NaN) : table.startXFt[from];
    out[at + 2 * k + 1] = unseen ? (usual?.y ?? Number.NaN) : table.startYFt[from];
  }
  return MOVABLE.every((position) => !Number.isNaN(out[at + 2 * position - 2]));
}

function missingFlags(table: PlayTable, row: number, bearingDeg: number, startsSeen: boolean): number {
  let flags = 0;
  if (Number.isNaN(bearingDeg)) flags |= flagBit('no_bearing');
  if (Number.isNaN(table.exitSpeedMph[row])) flags |= flagBit('no_speed');
  if (Number.isNaN(table.launchAngleDeg[row])) flags |= flagBit('no_launch_angle');
  if (!startsSeen) flags |= flagBit('no_starts');
  if (!flightSeen(table, row)) flags |= flagBit('no_flight');
  return flags;
}
