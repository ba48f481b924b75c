import { INCOMING_TABLES, type IncomingColumn, type IncomingTableName } from '../book/schema.ts';
import { type Guess, guessColumns, guessTable } from './guess-columns.ts';
import { guessWide, type WideGuess } from './guess-wide.ts';
import { SPOTS } from './mapping-schema.ts';
import { type ColumnProfile, VALUES_KEPT } from './profile-columns.ts';
import type { UnitName } from './units.ts';

/** What a sketch needs to know of one file. */
export interface SketchFile {
  readonly path: string;
  readonly columns: readonly ColumnProfile[];
}

/** A text as YAML: plain where that is safe, else in double quotes, which take the escapes of JSON. */
function scalar(text: string): string {
  const plain = /^[\p{L}_][\p{L}\p{N}_ ()/.-]*$/u.test(text) && !/^(true|false|null|yes|no|on|off|y|n)$/i.test(text);
  return plain && text.trim() === text ? text : JSON.stringify(text);
}

const comment = (text: string) => text.replaceAll(/[\r\n\u2028\u2029]+/g, ' ');

function sampleOf({ kind, min, max, values, format }: ColumnProfile): string {
  if (kind === 'empty') return 'empty in the first rows';
  if (kind === 'number') return `numbers ${min} to ${max}`;
  const shown = values
    .slice(0, 5)
    .map((value) => JSON.stringify(value.slice(0, 30)))
    .join(', ');
  return `${kind === 'date' ? `dates${format ? ` ${format}` : ''}, ` : ''}${shown}${values.length > 5 ? ', ...' : ''}`;
}

/** The words of a column: those that the contract knows need no table, the others are for the user to fill in. */
function valueTable(column: IncomingColumn, source: ColumnProfile): string | undefined {
  const { words } = column;
  if (words === undefined || source.values.every((value) => words.includes(value))) return undefined;
  const entries = source.values.slice(0, VALUES_KEPT).map((value) => {
    const same = words.find((word) => word.toLowerCase() === value.toLowerCase());
    return `${JSON.stringify(value)}: ${same === undefined ? '"?"' : scalar(same)}`;
  });
  return `{from: ${scalar(source.name)}, values: {${entries.join(', ')}}} # put for every "?" one of ${words.join(', ')}`;
}

function rule({ column, source, unit }: Guess): string {
  const from = scalar(source.name);
  const table = valueTable(column, source);
  if (table !== undefined) return table;
  if (source.format !== undefined) return `{from: ${from}, format: ${JSON.stringify(source.format)}}`;
  const own = unit === undefined || column.name.endsWith(`_${unit}`);
  return own ? from : `{from: ${from}, unit: ${unit}}${source.unit === undefined ? ' # the unit is a guess' : ''}`;
}

interface TableBlock extends Block {
  readonly table: IncomingTableName;
  readonly files: string[];
}

/** Unit of lengths: as named, else from how far out the numbers go (a fence is some 400 ft, 120 m, 12,000 cm away). */
function lengthUnit(profiles: readonly ColumnProfile[]): UnitName {
  const named = profiles.find(({ unit }) => unit !== undefined)?.unit;
  if (named !== undefined) return named;
  const reach = Math.max(
    0,
    ...profiles.flatMap(({ min, max }) => [Math.abs(min), Math.abs(max)]).filter(Number.isFinite),
  );
  return reach > 1000 ? 'cm' : reach > 150 || reach === 0 ? 'ft' : 'm';
}

interface Block {
  readonly lines: string[];
  readonly frame: UnitName | undefined;
}

function columnsBlock(table: IncomingTableName, profiles: readonly ColumnProfile[]): Block {
  const guesses = guessColumns(table, profiles);
  const pairs = SPOTS[table].flatMap((spot) => {
    const find = (axis: string) => guesses.find(({ column }) => column.name === `${spot}_${axis}_ft`);
    const [x, y] = [find('x'), find('y')];
    return x === undefined || y === undefined ? [] : [{ spot, x, y }];
  });
  const inSpots = new Set(pairs.flatMap(({ x, y }) => [x, y]));
  const spotColumns = new Set(SPOTS[table].flatMap((spot) => [`${spot}_x_ft`, `${spot}_y_ft`]));
  const lines = ['    columns:'];
  for (const column of INCOMING_TABLES[table].columns) {
    const guess = guesses.find((candidate) => candidate.column === column);
    if (guess !== undefined && !inSpots.has(guess)) lines.push(`      ${column.name}: ${rule(guess)}`);
    else if (guess === undefined && column.required) {
      const words = column.words === undefined ? '' : `; its words: ${column.words.join(', ')}`;
      lines.push(`      # ${column.name}: COLUMN # required${words}`);
    }
  }
  if (lines.length === 1) lines[0] = '    columns: {}';
  let frame: UnitName | undefined;
  if (pairs.length > 0) {
    frame = lengthUnit(pairs.flatMap(({ x, y }) => [x.source, y.source]));
    lines.push('    spots:');
    for (const { spot, x, y } of pairs) {
      lines.push(`      ${spot}: {x: ${scalar(x.source.name)}, y: ${scalar(y.source.name)}, frame: theirs}`);
    }
  }
  const open = INCOMING_TABLES[table].columns.filter(
    (column) => !column.required && !spotColumns.has(column.name) && !guesses.some((guess) => guess.column === column),
  );
  if (open.length > 0) lines.push(`    # Not filled, not required: ${open.map(({ name }) => name).join(', ')}`);
  const left = profiles.filter((profile) => !guesses.some(({ source }) => source === profile));
  if (left.length > 0) lines.push('    # Columns of the file that nothing uses yet:');
  for (const profile of left) lines.push(comment(`    #   ${scalar(profile.name)}: ${sampleOf(profile)}`));
  return { lines, frame };
}

function wideBlock(wide: WideGuess, profiles: readonly ColumnProfile[]): Block {
  const playId = guessColumns('starts', profiles).find(({ column }) => column.name === 'play_id');
  const lines = ['    wide:'];
  lines.push(
    playId === undefined
      ? '      play_id: "?" # required: the column that names the play'
      : `      play_id: ${scalar(playId.source.name)}`,
  );
  lines.push('      frame: theirs', '      positions:');
  for (const { position, fielder, x, y } of wide.positions) {
    const [f, across, out] = [fielder, x, y].map(({ name }) => scalar(name));
    lines.push(`        ${position}: {fielder_id: ${f}, x: ${across}, y: ${out}}`);
  }
  return { lines, frame: lengthUnit(wide.positions.flatMap(({ x, y }) => [x, y])) };
}

/**
 * A first mapping for some files, in YAML, for the user to finish: what the names, units, words and ranges of the data
 * contract suggest, and the other columns as comments with what is in them.
 */
export function sketchMapping(files: readonly SketchFile[]): string {
  const all: TableBlock[] = [];
  const said = (lines: readonly string[]) => lines.filter((line) => !/^\s*#/.test(line)).join('\n');
  const add = (table: IncomingTableName, path: string, block: Block) => {
    // Files with the same columns are one delivery in parts.
    const same = all.find((other) => other.table === table && said(other.lines) === said(block.lines));
    if (same === undefined) all.push({ ...block, table, files: [path] });
    else same.files.push(path);
  };
  for (const { path, columns } of files) {
    const table = guessTable(columns);
    const wide = guessWide(columns);
    const rest =
      wide === undefined
        ? columns
        : columns.filter((column) => !wide.positions.some((at) => [at.fielder, at.x, at.y].includes(column)));
    const onlyStarts = wide !== undefined && table === 'starts';
    if (!onlyStarts) add(table, path, columnsBlock(table, rest));
    if (wide !== undefined) add('starts', path, wideBlock(wide, rest));
  }
  const frame = all.find((block) => block.frame !== undefined)?.frame;
  const out = [
    '# A first mapping, guessed from names, units and values. Check every line; docs/mapping.md explains the keys.',
  ];
  if (frame !== undefined) {
    out.push(
      'frames:',
      '  # Where their origin is in our frame (feet from the point of home plate), and where their axes point:',
      '  # first_base, third_base, centre_field, home. Check the unit.',
      `  theirs: {unit: ${frame}, origin_ft: [0, 0], x_toward: first_base, y_toward: centre_field}`,
    );
  }
  out.push('tables:');
  for (const table of Object.keys(INCOMING_TABLES) as IncomingTableName[]) {
    const list = all.filter((block) => block.table === table);
    if (list.length > 0) out.push(`  ${table}:`);
    for (const { files: paths, lines } of list) {
      const filesLine = `files: [${paths.map(scalar).join(', ')}]`;
      if (list.length === 1) out.push(`    ${filesLine}`, ...lines);
      else out.push(`    - ${filesLine}`, ...lines.map((line) => `  ${line}`));
    }
  }
  return `${out.join('\n')}\n`;
}
