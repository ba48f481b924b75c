import { numberOf } from './entry-sums.ts';
import type { Row } from './table/row-source.ts';

/**
 * After how many chances the rate of a kind is half signal, as a clause; null when the book does not say. `rows` are those of table
 * half_signal at one position.
 */
export function halfSignalWords(rows: readonly Row[], kind: string): string | null {
  const found = rows.find((row) => row.kind === kind);
  if (found === undefined) return null;
  const [chances, low, high] = ['', '_lo95', '_hi95'].map((end) => numberOf(found, `half_signal_chances${end}`));
  const whole = (value: number) => String(Math.round(value));
  if (chances === null || chances === undefined) {
    return typeof low === 'number' ? `${kind} not within ${whole(low)} chances` : null;
  }
  const end = typeof high === 'number' ? `${whole(low ?? 0)} to ${whole(high)}` : `${whole(low ?? 0)} or more`;
  return `${kind} after ${whole(chances)} chances (95\u00a0%: ${end})`;
}
