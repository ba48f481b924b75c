import type { ComparedRating } from '../commands/compare/compare-ratings.ts';
import type { ByKind, Comparison } from '../commands/compare.ts';
import type { Difference, Estimate } from '../ratings/compare.ts';
import { WHOLE_PART } from '../ratings/directions.ts';
import { type CsvRow, csvRows } from './csv-rows.ts';

/** A value with what it is of: a sum in runs or a rate of a kind of entry, or the rating of a skill. */
interface Measured<Value> {
  readonly measure: 'runs' | 'outs_per_100' | 'rating';
  readonly kind: string;
  readonly position: number | null;
  readonly part: string;
  readonly value: Value;
}

/**
 * A comparison as CSV, a row a value: each defender's own, then the first less each of the others, whom `less` names; those
 * rows have `chance_above`.
 */
export function compareCsv({ defenders, differences, position }: Comparison): string {
  const row = (id: string, less: string | null, { value, ...of }: Measured<Estimate | Difference>): CsvRow => ({
    fielder_id: id,
    less,
    ...of,
    value: value.value,
    lo80: value.lo80,
    hi80: value.hi80,
    chance_above: 'chanceAbove' in value ? value.chanceAbove : null,
  });
  return csvRows([
    ...defenders.flatMap((own) => valuesOf(own, position).map((value) => row(own.id, null, value))),
    ...differences.flatMap((own) => valuesOf(own, position).map((value) => row(defenders[0]!.id, own.to.id, value))),
  ]);
}

/** `position` is the one that was asked for; without one, sums and rates are over all. */
function valuesOf<Value>(
  of: {
    readonly runs: ByKind<Value>;
    readonly outsPer100: ByKind<Value>;
    readonly ratings: readonly ComparedRating<Value>[];
  },
  position: number | null,
): Measured<Value>[] {
  const byKind = (measure: 'runs' | 'outs_per_100', values: ByKind<Value>) =>
    Object.entries(values).map(([kind, value]) => ({ measure, kind, position, part: WHOLE_PART, value }));
  return [
    ...byKind('runs', of.runs),
    ...byKind('outs_per_100', of.outsPer100),
    ...of.ratings.map(({ skill, ...rating }) => ({ measure: 'rating' as const, kind: skill, ...rating })),
  ];
}
