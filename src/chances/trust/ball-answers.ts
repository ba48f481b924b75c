import type { ClassPlays } from '../class-plays.ts';
import type { ShareTable } from './plainer-models.ts';

/** What every question has of a ball, with the answers of the constant and the table of shares; the outcome is that of the play. */
export function ballOf(held: ClassPlays & { readonly exitSpeedMph: Float64Array }, at: number, shares: ShareTable) {
  const bearingDeg = held.bearingDeg[at];
  const speedMph = held.exitSpeedMph[at];
  return {
    game: held.table.game[held.row[at]],
    outcome: held.closed[at],
    constant: shares.mean,
    bins: shares.share(bearingDeg, speedMph),
    bearingDeg,
    speedMph,
  };
}
