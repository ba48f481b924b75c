import type { PlayTableDraft } from '../../chances/play-table.ts';
import { MOVABLE_INFIELD } from '../../diamond/play-codes.ts';
import type { Random } from '../../numeric/random.ts';

/** Shares of plays that the demo league's watchers saw only in part. */
export const HOLE_SHARES = { starts: 0.05, gatherTime: 0.03, outcomeOnly: 0.015, launch: 0.008 } as const;

/** Blanks what nobody recorded, in place (method.md 9); the truth keeps it. */
export function makeHoles(plays: PlayTableDraft, count: number, random: Random): void {
  for (let row = 0; row < count; row += 1) {
    const noStarts = random.next() < HOLE_SHARES.starts;
    const noTime = random.next() < HOLE_SHARES.gatherTime;
    const outcomeOnly = random.next() < HOLE_SHARES.outcomeOnly;
    const noLaunch = random.next() < HOLE_SHARES.launch;
    if (noStarts) {
      for (const p of MOVABLE_INFIELD) {
        plays.startXFt[row * 9 + p - 1] = Number.NaN;
        plays.startYFt[row * 9 + p - 1] = Number.NaN;
      }
    }
    if (noTime) plays.gatherTimeS[row] = Number.NaN;
    if (noLaunch) {
      plays.exitSpeedMph[row] = Number.NaN;
      plays.launchAngleDeg[row] = Number.NaN;
    }
    if (outcomeOnly) {
      plays.gatherSeen[row] = 0;
      plays.touchedBy[row] = 0;
      plays.gatheredBy[row] = 0;
      plays.gatherXFt[row] = Number.NaN;
      plays.gatherYFt[row] = Number.NaN;
      plays.gatherTimeS[row] = Number.NaN;
      plays.throwTo[row] = 0;
    }
  }
}
