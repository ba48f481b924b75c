import type { SimulateReport } from '../commands/simulate.ts';

/** What `leatherbook simulate` prints: the files that it wrote, and the command that reads them into a book. */
export function simulateText({ out, files, plays }: SimulateReport): string {
  const mapping = files.find((file) => file.endsWith('.yaml'));
  const next = mapping === undefined ? [] : ['', `Next: leatherbook intake --book BOOK --mapping ${out}/${mapping}`];
  return [`${plays} plays in ${out}:`, ...files.map((file) => `  ${file}`), ...next, ''].join('\n');
}
