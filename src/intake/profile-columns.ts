import { UNIT_NAMES, type UnitName } from './units.ts';

/** What a source column looks like in the first rows of its file. */
export interface ColumnProfile {
  readonly name: string;
  /** The name in lower case, cut into words, without a unit. */
  readonly words: readonly string[];
  /** A unit named in the column's name. */
  readonly unit: UnitName | undefined;
  readonly kind: 'number' | 'date' | 'text' | 'empty';
  /** Date format of strptime, for a column of dates that are not ISO. */
  readonly format: string | undefined;
  readonly whole: boolean;
  readonly min: number;
  readonly max: number;
  /** Different values in order of first appearance, no more than VALUES_KEPT + 1. */
  readonly values: readonly string[];
}

export const VALUES_KEPT = 30;

/** Ways to write the units of the data contract; longer ones first, because `m` ends `cm`. */
const UNIT_WORDS: Readonly<Record<string, UnitName>> = {
  ...Object.fromEntries(UNIT_NAMES.map((unit) => [unit, unit])),
  kmh: 'km/h',
  kph: 'km/h',
  mps: 'm/s',
  feet: 'ft',
  metres: 'm',
  meters: 'm',
  inches: 'in',
  yards: 'yd',
  degrees: 'deg',
  radians: 'rad',
  sec: 's',
  seconds: 's',
};

/** Cuts `exitSpeed_mph`, `Exit Speed (mph)` and `EXIT-SPEED` into words. */
export function nameWords(name: string): { words: string[]; unit: UnitName | undefined } {
  let unit: UnitName | undefined;
  const outside = name.replace(/[([]\s*([^)\]]*?)\s*[)\]]/g, (whole, inner: string) => {
    const found = UNIT_WORDS[inner.toLowerCase()];
    unit ??= found;
    return found === undefined ? whole : ' ';
  });
  const words = outside
    .replaceAll(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .toLowerCase()
    .split(/[^\p{L}\p{N}/]+/u)
    .filter((word) => word !== '');
  const last = words.at(-1);
  if (unit === undefined && words.length > 1 && last !== undefined && Object.hasOwn(UNIT_WORDS, last)) {
    unit = UNIT_WORDS[last];
    words.pop();
  }
  return { words, unit };
}

const ISO = /^\d{4}-\d\d?-\d\d?([T ].*)?$/;
const OTHER_DATE = /^(\d{1,4})([./-])(\d{1,2})\2(\d{1,4})$/;

/** The format that all values have; day first unless a second number above 12 says otherwise. */
function dateFormat(values: readonly string[]): string | undefined {
  const parts = values.map((value) => OTHER_DATE.exec(value));
  if (values.length === 0 || parts.some((match) => match === null)) return undefined;
  const mark = parts[0]![2]!;
  if (parts.every((match) => match![1]!.length === 4)) return `%Y${mark}%m${mark}%d`;
  const year = parts[0]![4]!.length === 4 ? '%Y' : '%y';
  const monthFirst = parts.some((match) => Number(match![3]) > 12);
  return monthFirst ? `%m${mark}%d${mark}${year}` : `%d${mark}%m${mark}${year}`;
}

function profile(name: string, cells: readonly string[], decimal: string): ColumnProfile {
  const { words, unit } = nameWords(name);
  const filled = cells.map((cell) => cell.trim()).filter((cell) => cell !== '');
  const values = [...new Set(filled)].slice(0, VALUES_KEPT + 1);
  const numbers = filled.map((cell) => Number(decimal === ',' ? cell.replace(',', '.') : cell));
  const base = { name, words, unit, values, format: undefined, whole: false, min: Number.NaN, max: Number.NaN };
  if (filled.length === 0) return { ...base, kind: 'empty' };
  // One slip in a hundred does not make a column of numbers another thing.
  const good = numbers.filter(Number.isFinite);
  if (good.length >= 0.99 * filled.length) {
    let min = good[0]!;
    let max = good[0]!;
    for (const value of good) {
      min = Math.min(min, value);
      max = Math.max(max, value);
    }
    return { ...base, kind: 'number', whole: good.every(Number.isInteger), min, max };
  }
  if (filled.filter((cell) => ISO.test(cell)).length >= 0.99 * filled.length) return { ...base, kind: 'date' };
  const format = dateFormat(filled);
  return format === undefined ? { ...base, kind: 'text' } : { ...base, kind: 'date', format };
}

export function profileColumns(
  names: readonly string[],
  sample: readonly (readonly string[])[],
  decimal: string,
): ColumnProfile[] {
  return names.map((name, index) =>
    profile(
      name,
      sample.map((row) => row[index] ?? ''),
      decimal,
    ),
  );
}
