import type { IntakeReport } from '../commands/intake.ts';
import { textTable } from './text-table.ts';

/** How many reasons are shown; the book's table `set_aside` has every row with its own. */
const REASONS_SHOWN = 10;

/** What `leatherbook intake` prints: rows read = loaded + set aside for every file, and why rows were set aside. */
export function intakeText(report: IntakeReport): string {
  const counts = ['file', 'table', 'read', 'loaded', 'set aside', 'repeated'];
  const rows = report.files.map((file) => [
    file.file,
    file.table,
    file.read,
    file.loaded,
    file.setAside,
    file.repeated,
  ]);
  const sum = ['all', '', report.read, report.loaded, report.setAside, report.repeated];
  const parts = [
    textTable(
      counts.map((name) => ({ name })),
      rows.length === 1 ? rows : [...rows, sum],
    ),
  ];
  if (report.reasons.length > 0) {
    const shown = report.reasons.slice(0, REASONS_SHOWN);
    parts.push(
      textTable(
        [{ name: 'rows set aside' }, { name: 'table' }, { name: 'column' }, { name: 'reason, for example' }],
        shown.map((reason) => [reason.rows, reason.table, reason.column, reason.example]),
      ),
    );
    const more = report.reasons.length - shown.length;
    if (more > 0) parts.push(`and ${more} more kinds of reason\n`);
    if (!report.dryRun) {
      parts.push(`Every row with its text and reason: leatherbook table set_aside --book ${report.book}\n`);
    }
  }
  if (report.dryRun) parts.push('Nothing was kept: this was a dry run.\n');
  return parts.join('\n');
}
