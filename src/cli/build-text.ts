import type { BuildReport } from '../commands/build.ts';
import { textTable } from './text-table.ts';

const GRADE_MEANINGS: Readonly<Record<string, string>> = {
  full: 'starts and gather seen: placement, reach, finish',
  ground: 'a start not seen: one shared entry, ground',
  whole: 'only the result seen: one entry, whole',
};

/** What `leatherbook build` prints: what went into the ledger, how much of it was fully recorded, and warnings. */
export function buildText(report: BuildReport): string {
  const kinds = textTable(
    [{ name: 'ball kind' }, { name: 'plays' }, { name: '' }],
    Object.entries(report.plays).map(([kind, plays]) => [
      kind,
      plays,
      kind === 'ground' ? 'in the ledger' : 'kept and counted, not in the ledger',
    ]),
  );
  const grades = textTable(
    [{ name: 'grade' }, { name: 'grounders' }, { name: '' }],
    Object.entries(report.grades).map(([grade, plays]) => [grade, plays, GRADE_MEANINGS[grade] ?? '']),
  );
  const parts = [kinds, grades, `${report.entries} entries\n`];
  for (const warning of report.warnings) parts.push(`Warning: ${warning}\n`);
  parts.push(`Do the books balance? leatherbook table balance --book ${report.book}\n`);
  return parts.join('\n');
}
