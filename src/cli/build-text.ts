import type { BuildReport } from '../commands/build-report.ts';
import type { UpdateReport } from '../commands/update.ts';
import { textTable } from './text-table.ts';

const GRADE_MEANINGS: Readonly<Record<string, string>> = {
  full: 'starts and gather seen: placement, reach, finish',
  ground: 'a start, or where the ball went, not seen: one shared entry, ground',
  whole: 'only the result seen: one entry, whole',
};

/** What `leatherbook build` prints: what went into the ledger, how much of it was fully recorded, and warnings. */
export function buildText(report: BuildReport): string {
  const kinds = textTable(
    [{ name: 'ball kind' }, { name: 'plays' }, { name: 'full' }, { name: 'ground' }, { name: 'whole' }, { name: '' }],
    Object.entries(report.plays).map(([kind, plays]) => {
      const grades = report.gradesByKind[kind];
      if (grades === undefined) return [kind, plays, null, null, null, plays > 0 ? 'counted, not in the ledger' : ''];
      return [kind, plays, grades.full, grades.ground, grades.whole, ''];
    }),
  );
  const meanings = Object.entries(GRADE_MEANINGS).map(([grade, meaning]) => `${grade}: ${meaning}\n`);
  const parts = [`${kinds}\n${meanings.join('')}`, `${report.entries} entries\n`, `Run table: ${report.runTable}\n`];
  for (const { season, r, lo95, hi95, note } of report.overshifts) {
    if (!Number.isNaN(lo95)) {
      parts.push(
        `${season}: placement against overshifts over the clubs, correlation ${r.toFixed(2)} (95 % ${lo95.toFixed(2)} to ${hi95.toFixed(2)}); ${note}\n`,
      );
    }
  }
  for (const warning of report.warnings) parts.push(`Warning: ${warning}\n`);
  parts.push(`Do the books balance? leatherbook table balance --book ${report.book}\n`);
  return parts.join('\n');
}

/** What `leatherbook update` prints: how much is new, then what a build prints. */
export function updateText(report: UpdateReport): string {
  const { newPlays, fittedPlays } = report;
  const marked = report.grades.full + report.grades.ground + report.grades.whole;
  const unseen = marked - fittedPlays;
  const model = `The models were fitted on ${fittedPlays} plays`;
  const share = unseen > 0 ? `; ${Math.round((100 * unseen) / marked)} % of the ledger came later` : '';
  return `${newPlays} new plays for the ledger. ${model}${share}.\n\n${buildText(report)}`;
}
