import { numberOf } from './entry-sums.ts';
import type { Row } from './table/row-source.ts';

const decimals = (value: number) => value.toFixed(2).replace('-', '\u2212');

/**
 * How well a kind of entry repeats itself at a position, as a sentence. Of the thresholds of chances the largest is taken
 * that the man himself reaches; seasons are compared where the book has enough of them, halves of a season otherwise.
 * Null when the book cannot say.
 */
export function reliabilityWords(rows: readonly Row[], kind: string, men: string, chances: number): string | null {
  const known = rows.filter(
    (row) => row.kind === kind && numberOf(row, 'r') !== null && (numberOf(row, 'n') ?? 0) >= 3,
  );
  const fitting = known.filter((row) => (numberOf(row, 'min_chances') ?? 0) <= chances);
  const best = (method: string) =>
    [...(fitting.length > 0 ? fitting : known)]
      .filter((row) => row.method === method)
      .sort((a, b) => (numberOf(b, 'min_chances') ?? 0) - (numberOf(a, 'min_chances') ?? 0))[0];
  const found = best('year_to_year') ?? best('split_half');
  if (found === undefined) return null;
  const number = (column: string) => numberOf(found, column) ?? Number.NaN;
  const least = number('min_chances');
  const who = least > 0 ? `${men.toLowerCase()} with ${least} chances or more` : men.toLowerCase();
  const isYears = found.method === 'year_to_year';
  const r = isYears ? number('r') : (numberOf(found, 'spearman_brown') ?? number('r'));
  const range = `95 % of ${decimals(number('lo95'))} to ${decimals(number('hi95'))}`;
  const pairs = `${number('n')} ${isYears ? 'pairs of seasons' : 'men'}`;
  const how = isYears ? 'from one season to the next' : 'between the two halves of a season, scaled to a whole one,';
  const sense = r >= 0.7 ? 'mostly the man' : r >= 0.4 ? 'the man and chance in like parts' : 'mostly chance';
  const interval = isYears ? range : `halves: ${decimals(number('r'))}, ${range}`;
  return `${kind} of ${who} correlates ${how} at ${decimals(r)} (${interval}; ${pairs}): ${sense}.`;
}
