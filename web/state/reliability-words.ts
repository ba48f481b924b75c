import { numberOf } from './entry-sums.ts';
import type { Row } from './table/row-source.ts';

/** With fewer a correlation says little; a lower threshold with more of them says more. */
const MANY_PAIRS = 15;
const decimals = (value: number) => value.toFixed(2).replace('-', '\u2212');

/** What a correlation of halves makes for wholes (Spearman-Brown). */
const wholeSeason = (r: number) => (2 * r) / (1 + r);

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
  const best = (method: string) => {
    const rows = (fitting.length > 0 ? fitting : known).filter((row) => row.method === method);
    const many = rows.filter((row) => (numberOf(row, 'n') ?? 0) >= MANY_PAIRS);
    return [...(many.length > 0 ? many : rows)].sort(
      (a, b) => (numberOf(b, 'min_chances') ?? 0) - (numberOf(a, 'min_chances') ?? 0),
    )[0];
  };
  const found = best('year_to_year') ?? best('split_half');
  if (found === undefined) return null;
  const number = (column: string) => numberOf(found, column) ?? Number.NaN;
  const least = number('min_chances');
  const who = least > 0 ? `${men.toLowerCase()} with ${least} chances or more` : men.toLowerCase();
  const isYears = found.method === 'year_to_year';
  const r = isYears ? number('r') : (numberOf(found, 'spearman_brown') ?? number('r'));
  const range = `95\u00a0%: ${decimals(number('lo95'))} to ${decimals(number('hi95'))}`;
  const pairs = `${number('n')} ${isYears ? 'pairs of seasons' : 'men'}`;
  const how = isYears ? 'from one season to the next' : 'between the two halves of a season, scaled to a whole one,';
  const [low, high] = isYears ? [number('lo95'), number('hi95')] : [number('lo95'), number('hi95')].map(wholeSeason);
  const sense =
    low! >= 0.5 ? 'mostly the man' : high! < 0.5 ? 'mostly chance' : 'too few to say how much of it is the man';
  const interval = isYears ? range : `halves: ${decimals(number('r'))}, ${range}`;
  return `${kind} of ${who} correlates ${how} at ${decimals(r)} (${interval}; ${pairs}): ${sense}.`;
}
