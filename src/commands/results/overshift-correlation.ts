import { FULL } from '../../chances/grades.ts';
import type { ClassLedger } from '../../ledger/class-ledger.ts';
import { PLACEMENT } from '../../ledger/entry-kinds.ts';
import { type ClubCorrelation, splitByOvershift } from '../../ledger/overshift-split.ts';
import { inOvershift } from '../../ledger/season-totals.ts';

/** By season: the correlation over clubs of placement with the share of overshifts, over the fully recorded plays of all classes. */
export function correlateOvershifts(ledgers: readonly ClassLedger[]): (ClubCorrelation & { season: number })[] {
  const seasons = [...new Set(ledgers.flatMap(({ plays }) => Array.from(plays.season)))].sort((a, b) => a - b);
  return seasons.map((season) => {
    const club: number[] = [];
    const overshift: number[] = [];
    const placementRuns: number[] = [];
    for (const { plays, entries, grade } of ledgers) {
      const runs = new Float64Array(plays.count);
      for (let e = 0; e < entries.count; e += 1)
        if (entries.kind[e] === PLACEMENT) runs[entries.play[e]] += entries.runs[e];
      for (let at = 0; at < plays.count; at += 1) {
        if (plays.season[at] !== season || grade[at] !== FULL) continue;
        club.push(plays.table.fieldingTeam[plays.row[at]]);
        overshift.push(Number(inOvershift(plays, at)));
        placementRuns.push(runs[at]);
      }
    }
    const clubCount = ledgers[0].plays.table.teams.length;
    return { season, ...splitByOvershift({ club, clubCount, overshift, placementRuns }).correlation };
  });
}
