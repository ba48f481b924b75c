import { INCOMING_TABLES, type IncomingColumn, type IncomingTableName } from '../book/schema.ts';
import { type ColumnProfile, nameWords, VALUES_KEPT } from './profile-columns.ts';
import { toOwnUnit, type UnitName, unitsFor } from './units.ts';

/** A guess at what fills a column of the contract. */
export interface Guess {
  readonly column: IncomingColumn;
  readonly source: ColumnProfile;
  readonly unit: UnitName | undefined;
}

/** Do the values of a source column make sense in a column of the contract? The unit is chosen so that they do. */
function fits(column: IncomingColumn, source: ColumnProfile): { unit: UnitName | undefined } | undefined {
  if (source.kind === 'empty') return { unit: undefined };
  if (column.type === 'date') return source.kind === 'date' ? { unit: undefined } : undefined;
  if (column.type === 'text' || column.type === 'boolean') return { unit: undefined };
  if (source.kind !== 'number' || (column.type === 'integer' && !source.whole)) return undefined;
  const inRange = (unit: UnitName | undefined) => {
    const low = unit === undefined ? source.min : toOwnUnit(source.min, unit);
    const high = unit === undefined ? source.max : toOwnUnit(source.max, unit);
    return (column.min === undefined || low >= column.min - 1) && (column.max === undefined || high <= column.max);
  };
  const units = unitsFor(column.name);
  if (units.length === 0) return inRange(undefined) ? { unit: undefined } : undefined;
  if (source.unit !== undefined) return units.includes(source.unit) ? { unit: source.unit } : undefined;
  // No unit is named: the project's own, unless all values are so small that radians or metres a second are likelier.
  if (column.name === 'bearing_deg' || column.name === 'launch_angle_deg') {
    if (Math.max(Math.abs(source.min), Math.abs(source.max)) < 1.7) return { unit: 'rad' };
  }
  if (column.name === 'exit_speed_mph' && source.max < 62) return { unit: 'm/s' };
  const unit = units.find(inRange);
  return unit === undefined ? undefined : { unit };
}

/** Share of words that two names have in common, 1 for the same name. */
function likeness(column: IncomingColumn, source: ColumnProfile): number {
  const wanted = nameWords(column.name).words;
  const given = source.words;
  if (wanted.join('') === given.join('')) return 1;
  const common = wanted.filter((word) => given.includes(word)).length;
  return common / (wanted.length + given.length - common);
}

/** Are all values words that this column takes, and more than a single letter or number by chance? */
function speaksItsWords(column: IncomingColumn, source: ColumnProfile): boolean {
  const { words } = column;
  if (words === undefined || source.values.length < 2 || source.values.length > VALUES_KEPT) return false;
  return source.values.every((value) => words.includes(value));
}

/** Does the unit, or the range of the values, leave only this column of the table? */
function onlyCandidate(table: IncomingTableName, column: IncomingColumn, source: ColumnProfile): boolean {
  const { columns } = INCOMING_TABLES[table];
  if (source.unit !== undefined) {
    const takers = columns.filter(({ name }) => unitsFor(name).includes(source.unit!));
    return takers.length === 1 && takers[0] === column;
  }
  // All nine positions and nothing else; several columns of plays hold positions, so there they say nothing.
  if (column.name === 'position') return source.whole && source.values.length === 9 && source.min === 1;
  return table === 'people' && column.type === 'double' && source.kind === 'number' && !source.whole;
}

/** How surely a source column is a column of the contract: by name, and by words; 0 is no guess. */
function evidence(table: IncomingTableName, column: IncomingColumn, source: ColumnProfile): number {
  const named = likeness(column, source);
  if (speaksItsWords(column, source)) return Math.max(named, 0.6);
  if (column.type === 'date' && source.kind === 'date') return Math.max(named, 0.5);
  if (onlyCandidate(table, column, source)) return Math.max(named, 0.5);
  return named >= 0.5 ? named : 0;
}

/**
 * Guesses which source columns fill the columns of a table. It knows the names, units, words and ranges of the data contract
 * and nothing about anybody's files. Each source column is used once, the surest guess first.
 */
export function guessColumns(table: IncomingTableName, profiles: readonly ColumnProfile[]): Guess[] {
  const options = INCOMING_TABLES[table].columns.flatMap((column) =>
    profiles.flatMap((source) => {
      const fit = fits(column, source);
      const strength = fit === undefined ? 0 : evidence(table, column, source);
      return strength === 0 ? [] : [{ column, source, unit: fit!.unit, strength }];
    }),
  );
  options.sort((a, b) => b.strength - a.strength);
  const guesses: Guess[] = [];
  for (const { column, source, unit } of options) {
    if (guesses.some((guess) => guess.column === column || guess.source === source)) continue;
    guesses.push({ column, source, unit });
  }
  return guesses;
}

/** The table that a file's columns fit best; plays when nothing speaks for another. */
export function guessTable(profiles: readonly ColumnProfile[]): IncomingTableName {
  let best: IncomingTableName = 'plays';
  let bestScore = 0;
  for (const table of Object.keys(INCOMING_TABLES) as IncomingTableName[]) {
    const { columns } = INCOMING_TABLES[table];
    const guesses = guessColumns(table, profiles);
    const required = columns.filter((column) => column.required);
    const found = required.filter((column) => guesses.some((guess) => guess.column === column)).length;
    const score = guesses.length + found / required.length;
    if (score > bestScore + 1e-9) {
      best = table;
      bestScore = score;
    }
  }
  return best;
}
