import { INCOMING_TABLES, type IncomingColumn, type IncomingTableName } from '../book/schema.ts';
import { checkDateFormat } from './date-format.ts';
import { ExpressionError, needsOf, parseExpression } from './expression.ts';
import { axesAreSquare, type Frame, type FrameSpec, frameOf, OWN_FRAME } from './frames.ts';
import type { ColumnRule, Mapping, RowRule, Section, SpotRule } from './mapping.ts';
import type { ColumnSpec, SectionSpec, SpotSpec, WideSpec } from './mapping-schema.ts';
import { didYouMean, listWords } from './nearest-word.ts';
import { unitKindOf, unitsFor } from './units.ts';

/** What is wrong with a mapping and where, as the keys that lead there. */
export class MappingError extends Error {
  readonly path: readonly (string | number)[];
  constructor(path: readonly (string | number)[], message: string) {
    super(message);
    this.path = path;
  }
}

type Path = readonly (string | number)[];
const SOURCES = ['from', 'expr', 'value', 'join'] as const;

function compileExpression(text: string, path: Path): ColumnRule & { kind: 'expression' } {
  try {
    return { kind: 'expression', text, expression: parseExpression(text) };
  } catch (thrown) {
    if (!(thrown instanceof ExpressionError)) throw thrown;
    throw new MappingError([...path, 'expr'], `the expression '${text}' cannot be used: ${thrown.message}`);
  }
}

/** Number of capturing groups, found by letting an alternative that is always empty match. */
function countCaptures(pattern: string, path: Path): number {
  try {
    return new RegExp(`${pattern}|`).exec('')!.length - 1;
  } catch (thrown) {
    throw new MappingError(
      [...path, 'pattern'],
      `the pattern '${pattern}' cannot be used: ${(thrown as Error).message}`,
    );
  }
}

function compileColumn(spec: ColumnSpec, column: IncomingColumn, path: Path): ColumnRule {
  const given = SOURCES.filter((key) => spec[key] !== undefined);
  if (given.length !== 1) {
    const found = given.length === 0 ? 'none of them' : given.join(' and ');
    throw new MappingError(path, `give exactly one of ${SOURCES.join(', ')}; found ${found}`);
  }
  const source = given[0]!;
  const changes = (['format', 'unit', 'values', 'pattern'] as const).filter((key) => spec[key] !== undefined);
  const allowed = source === 'from' ? ['format', 'unit', 'values', 'pattern'] : source === 'expr' ? ['unit'] : [];
  const wrong = changes.find((key) => !allowed.includes(key));
  if (wrong !== undefined) throw new MappingError([...path, wrong], `'${wrong}' cannot stand beside '${source}'`);
  if (changes.length > 1) throw new MappingError(path, `${changes.join(' and ')} cannot stand together`);
  if (spec.with !== undefined && source !== 'join') {
    throw new MappingError([...path, 'with'], "'with' belongs to 'join'");
  }
  if (spec.unit !== undefined && !unitsFor(column.name).includes(spec.unit)) {
    const kind = unitKindOf(column.name);
    const why = kind === undefined ? 'has no unit' : `is a ${kind}: ${unitsFor(column.name).join(', ')}`;
    throw new MappingError([...path, 'unit'], `the unit '${spec.unit}' does not fit: ${column.name} ${why}`);
  }
  if (source === 'value') return { kind: 'constant', value: spec.value! };
  if (source === 'join') return { kind: 'join', from: spec.join!, separator: spec.with ?? '-' };
  if (source === 'expr') {
    if (column.type !== 'double' && column.type !== 'integer') {
      throw new MappingError([...path, 'expr'], `an expression gives a number, and ${column.name} is not one`);
    }
    const rule = compileExpression(spec.expr!, path);
    return spec.unit === undefined ? rule : { ...rule, unit: spec.unit };
  }
  const from = spec.from!;
  if (spec.unit !== undefined) return { kind: 'unit', from, unit: spec.unit };
  if (spec.values !== undefined) {
    return { kind: 'words', from, values: new Map(Object.entries(spec.values).map(([k, v]) => [k, v ?? ''])) };
  }
  if (spec.pattern !== undefined) {
    return { kind: 'pattern', from, pattern: spec.pattern, captures: countCaptures(spec.pattern, path) > 0 };
  }
  if (spec.format !== undefined) {
    if (column.type !== 'date') throw new MappingError([...path, 'format'], `${column.name} is not a date`);
    const fault = checkDateFormat(spec.format);
    if (fault !== undefined) throw new MappingError([...path, 'format'], fault);
    return { kind: 'date', from, format: spec.format };
  }
  return { kind: 'text', from };
}

/** A constant that its column cannot take would set every row aside. */
function checkConstant(rule: ColumnRule, column: IncomingColumn, path: Path): void {
  if (rule.kind !== 'constant') return;
  const { value } = rule;
  const { type, min = -Infinity, max = Infinity } = column;
  const number = value.trim() === '' ? Number.NaN : Number(value);
  const fits = {
    text: value.trim() !== '',
    date: /^\d{4}-\d\d-\d\d$/.test(value),
    boolean: value === 'true' || value === 'false',
    double: number >= min && number <= max,
    integer: Number.isInteger(number) && number >= min && number <= max,
  }[type];
  if (fits) return;
  const range = Number.isFinite(min) ? ` from ${min} to ${max}` : '';
  throw new MappingError([...path, 'value'], `${column.name} is a ${type}${range}, and '${value}' is not`);
}

/** A value table may only give words that the column takes. */
function checkWords(rule: ColumnRule, column: IncomingColumn, path: Path): void {
  const given =
    rule.kind === 'words' ? [...rule.values] : rule.kind === 'constant' ? [['value', rule.value] as const] : [];
  for (const [key, value] of given) {
    if (column.words === undefined || value === '' || column.words.includes(value)) continue;
    const place = rule.kind === 'words' ? [...path, 'values', key] : [...path, 'value'];
    throw new MappingError(
      place,
      `'${value}' is not a word of ${column.name}.${didYouMean(value, column.words)} Allowed: ${listWords(column.words)}`,
    );
  }
}

function compileCoordinate(spec: SpotSpec['x'], path: Path): ColumnRule {
  return spec.expr === undefined ? { kind: 'text', from: spec.from! } : compileExpression(spec.expr, path);
}

function frameNamed(frames: ReadonlyMap<string, Frame>, name: string | undefined, path: Path): Frame {
  if (name === undefined) return OWN_FRAME;
  const frame = frames.get(name);
  if (frame !== undefined) return frame;
  const known = [...frames.keys()];
  throw new MappingError(
    [...path, 'frame'],
    `there is no frame '${name}'.${didYouMean(name, known)} Frames of this mapping: ${listWords(known)}`,
  );
}

function compileSpot(name: string, spec: SpotSpec, frames: ReadonlyMap<string, Frame>, path: Path): SpotRule {
  const x = compileCoordinate(spec.x, [...path, 'x']);
  const y = compileCoordinate(spec.y, [...path, 'y']);
  return { name, x, y, frame: frameNamed(frames, spec.frame, path) };
}

function targetColumn(table: IncomingTableName, name: string): IncomingColumn {
  return INCOMING_TABLES[table].columns.find((column) => column.name === name)!;
}

function compileWide(wide: WideSpec, frames: ReadonlyMap<string, Frame>, path: Path): RowRule[] {
  const frame = frameNamed(frames, wide.frame, path);
  const compile = (name: string, spec: ColumnSpec, at: Path) => compileColumn(spec, targetColumn('starts', name), at);
  const rules = Object.entries(wide.positions).map(([position, spec]): RowRule => {
    const at = [...path, 'positions', position];
    if ((spec.x === undefined) !== (spec.y === undefined)) throw new MappingError(at, 'give both x and y, or neither');
    return {
      columns: new Map<string, ColumnRule>([
        ['play_id', compile('play_id', wide.play_id, [...path, 'play_id'])],
        ['position', { kind: 'constant', value: position }],
        ['fielder_id', compile('fielder_id', spec.fielder_id, [...at, 'fielder_id'])],
      ]),
      spots:
        spec.x === undefined || spec.y === undefined
          ? []
          : [{ name: 'start', x: compileCoordinate(spec.x, at), y: compileCoordinate(spec.y, at), frame }],
    };
  });
  if (rules.length === 0) throw new MappingError([...path, 'positions'], 'name at least one position');
  return rules;
}

/** Follows the `@` references of every expression; a circle is told as the chain that closes it. */
function checkReferences(table: IncomingTableName, rule: RowRule, path: Path): void {
  const references = new Map<string, string[]>();
  const add = (target: string, from: ColumnRule, at: Path) => {
    const targets = from.kind === 'expression' ? [...needsOf(from.expression).targets] : [];
    for (const name of targets) {
      const column = INCOMING_TABLES[table].columns.find((candidate) => candidate.name === name);
      const names = INCOMING_TABLES[table].columns.map((candidate) => candidate.name);
      if (column === undefined) {
        throw new MappingError(at, `'@${name}' is not a column of ${table}.${didYouMean(name, names)}`);
      }
      if (column.type !== 'double' && column.type !== 'integer')
        throw new MappingError(at, `'@${name}' is not a number`);
    }
    references.set(target, [...(references.get(target) ?? []), ...targets]);
  };
  for (const [name, column] of rule.columns) add(name, column, [...path, 'columns', name]);
  for (const spot of rule.spots) {
    for (const column of [`${spot.name}_x_ft`, `${spot.name}_y_ft`]) {
      add(column, spot.x, [...path, 'spots', spot.name]);
      add(column, spot.y, [...path, 'spots', spot.name]);
    }
  }
  const done = new Set<string>();
  const follow = (name: string, chain: readonly string[]) => {
    if (chain.includes(name)) {
      const circle = [...chain.slice(chain.indexOf(name)), name].map((link) => `@${link}`).join(' -> ');
      throw new MappingError(
        [...path, rule.columns.has(name) ? 'columns' : 'spots'],
        `the expressions go in a circle: ${circle}`,
      );
    }
    if (done.has(name)) return;
    if (chain.length > 0 && !references.has(name)) {
      throw new MappingError([...path, 'columns', chain.at(-1)!], `'@${name}' is not filled by this mapping`);
    }
    for (const next of references.get(name) ?? []) follow(next, [...chain, name]);
    done.add(name);
  };
  for (const name of references.keys()) follow(name, []);
}

function checkTargets(table: IncomingTableName, rule: RowRule, path: Path): void {
  const filled = new Set<string>();
  for (const name of [
    ...rule.columns.keys(),
    ...rule.spots.flatMap(({ name: spot }) => [`${spot}_x_ft`, `${spot}_y_ft`]),
  ]) {
    if (filled.has(name))
      throw new MappingError([...path, 'columns', name], `${name} is filled twice, here and by a spot`);
    filled.add(name);
  }
  if (filled.has('date')) filled.add('season');
  for (const { name, required } of INCOMING_TABLES[table].columns) {
    if (required && !filled.has(name)) {
      throw new MappingError([...path, 'columns'], `${table} needs the column '${name}', and nothing fills it`);
    }
  }
}

function compileSection(
  table: IncomingTableName,
  spec: SectionSpec,
  frames: ReadonlyMap<string, Frame>,
  path: Path,
): Section {
  const { columns = {}, spots = {}, wide, files, ...reading } = spec;
  const rule: RowRule = {
    columns: new Map(
      Object.entries(columns).flatMap(([name, column]) => {
        if (column === undefined) return [];
        const at = [...path, 'columns', name];
        const compiled = compileColumn(column, targetColumn(table, name), at);
        checkConstant(compiled, targetColumn(table, name), at);
        checkWords(compiled, targetColumn(table, name), at);
        return [[name, compiled] as const];
      }),
    ),
    spots: Object.entries(spots).flatMap(([name, spot]) =>
      spot === undefined ? [] : [compileSpot(name, spot, frames, [...path, 'spots', name])],
    ),
  };
  if (wide !== undefined && (rule.columns.size > 0 || rule.spots.length > 0)) {
    throw new MappingError([...path, 'wide'], "'wide' takes the place of 'columns' and 'spots'");
  }
  const rows = wide === undefined ? [rule] : compileWide(wide, frames, [...path, 'wide']);
  for (const row of rows) {
    checkTargets(table, row, path);
    checkReferences(table, row, path);
  }
  const patterns = files.map((file) => ({ ...reading, ...file }));
  const same = patterns.findIndex(({ delimiter, quote = '"' }) => delimiter !== undefined && delimiter === quote);
  if (same >= 0) throw new MappingError([...path, 'files', same], 'the delimiter and the quote are the same character');
  return { table, files: patterns, rows, wide: wide !== undefined, path: path.join('.') };
}

/** The parts of a mapping that the schema lets through, checked against each other and parsed. */
export function compileMapping(
  file: string,
  frameSpecs: Readonly<Record<string, FrameSpec>>,
  tables: Readonly<Partial<Record<IncomingTableName, readonly SectionSpec[]>>>,
): Mapping {
  const frames = new Map<string, Frame>();
  for (const [name, spec] of Object.entries(frameSpecs)) {
    if (!axesAreSquare(spec)) {
      const axes = `x_toward ${spec.x_toward} and y_toward ${spec.y_toward}`;
      throw new MappingError(['frames', name], `the axes must stand at a right angle; ${axes} do not`);
    }
    frames.set(name, frameOf(spec));
  }
  const sections = Object.entries(tables).flatMap(([table, specs]) =>
    (specs ?? []).map((spec, index) => {
      const path = specs!.length === 1 ? ['tables', table] : ['tables', table, index];
      return compileSection(table as IncomingTableName, spec, frames, path);
    }),
  );
  return { file, sections };
}
