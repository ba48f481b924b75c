import type { PlayTable } from '../../chances/play-table.ts';
import { RUNNERS } from './base-out.ts';

/**
 * Innings after this one are left out of run tables: from the ninth on the home side stops as soon as it leads, so its
 * runs are cut short.
 */
const LAST_WHOLE_INNING = 8;

/** Wider than the number of batters of any half inning; keeps the keys of neighbouring half innings apart. */
const KEY_STRIDE = 256;

/** No such play. */
export const NONE = -1;

/** Plays that a run table can use, in table order, and what came right after them. */
export interface PlaySequence {
  readonly count: number;
  /** Row in the play table. */
  readonly row: Int32Array;
  /** Number of the play's half inning: game, inning and batting team. */
  readonly half: Int32Array;
  /** Base-out state before the play. */
  readonly before: Uint8Array;
  /** Runs from the start of the play to the end of the half inning. */
  readonly runsRest: Uint8Array;
  readonly outsAfter: Uint8Array;
  readonly runnersAfter: Uint8Array;
  /** Runs from the end of the play to the end of the half inning. */
  readonly runsAfter: Uint8Array;
  /** Number in this sequence of the play that the very next batter put in, and the batter after him; else NONE. */
  readonly next: Int32Array;
  readonly second: Int32Array;
}

/**
 * Orders the plays of each half inning without trusting the order of rows or names. Every batter so far is out, on base
 * or home, so (outs + runners + runs so far) numbers the batters of a half inning; runs so far are the inning's runs less
 * runs_rest_of_inning, and the inning's runs are the same for all. A play's successor is therefore the play of its half
 * inning whose outs + runners - runs_rest_of_inning is one higher. A runner put out between two balls keeps the sum.
 *
 * Left out: innings after the eighth or unknown, plays without runs_scored or runs_rest_of_inning, and plays after which
 * the men do not add up.
 */
export function sequencePlays(plays: PlayTable): PlaySequence {
  const used: number[] = [];
  for (let row = 0; row < plays.count; row += 1) if (isUsable(plays, row)) used.push(row);
  const count = used.length;
  const halves = new Map<string, number>();
  const batterAt = new Map<number, number>();
  const keys = new Int32Array(count);
  const half = new Int32Array(count);
  used.forEach((row, at) => {
    const name = `${plays.game[row]} ${plays.inning[row]} ${plays.battingTeam[row]}`;
    half[at] = halves.get(name) ?? halves.size;
    halves.set(name, half[at]);
    const batter = plays.outsBefore[row] + RUNNERS[plays.bases[row]] - plays.runsRestOfInning[row];
    keys[at] = half[at] * KEY_STRIDE + batter;
    batterAt.set(keys[at], at);
  });
  return {
    count,
    row: Int32Array.from(used),
    half,
    before: Uint8Array.from(used, (row) => plays.outsBefore[row] * 8 + plays.bases[row]),
    runsRest: Uint8Array.from(used, (row) => plays.runsRestOfInning[row]),
    outsAfter: Uint8Array.from(used, (row) => plays.outsBefore[row] + plays.outsMade[row]),
    runnersAfter: Uint8Array.from(used, (row) => Math.max(0, runnersAfter(plays, row))),
    runsAfter: Uint8Array.from(used, (row) => plays.runsRestOfInning[row] - plays.runsScored[row]),
    next: keys.map((key) => batterAt.get(key + 1) ?? NONE),
    second: keys.map((key) => batterAt.get(key + 2) ?? NONE),
  };
}

/** Everybody who was on base or at bat is out, home or on base. */
function runnersAfter(plays: PlayTable, row: number): number {
  return RUNNERS[plays.bases[row]] + 1 - plays.outsMade[row] - plays.runsScored[row];
}

function isUsable(plays: PlayTable, row: number): boolean {
  const inning = plays.inning[row];
  const rest = plays.runsRestOfInning[row];
  const scored = plays.runsScored[row];
  if (inning < 1 || inning > LAST_WHOLE_INNING || !Number.isInteger(rest) || !Number.isInteger(scored)) return false;
  if (scored < 0 || rest < scored || rest >= KEY_STRIDE / 2) return false;
  if (plays.outsBefore[row] + plays.outsMade[row] >= 3) return true;
  const left = runnersAfter(plays, row);
  return left >= 0 && left <= 3;
}
